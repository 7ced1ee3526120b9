import { type AnyFormula, formula } from '#core/quantity'

/**
 * Coil resistance from the needle brought down by a resistor across the movement. The resistor in series keeps the
 * current nearly, not quite, the same; the law takes that in, so that nothing is left of the method's own error.
 */
export const coilByDeflection = formula({
  id: 'upkeep/coil-by-deflection',
  version: 1,
  text: 'R_m = R_p R_s (1 - f) / (f R_s - (1 - f) R_p)',
  unit: 'ohm',
  inputs: { parallel: 'ohm', series: 'ohm', fraction: '1' },
  symbols: { parallel: 'R_p', series: 'R_s', fraction: 'f' },
  source: { title: "Kirchhoff's laws for a movement with a resistor across it", where: 'half-deflection method' },
  evaluate: ({ parallel, series, fraction }) =>
    (parallel * series * (1 - fraction)) / (fraction * series - (1 - fraction) * parallel),
  partials: ({ parallel, series, fraction }) => {
    const rest = 1 - fraction
    const below = fraction * series - rest * parallel
    const value = (parallel * series * rest) / below
    return {
      parallel: (series * rest + value * rest) / below,
      series: (parallel * rest - value * fraction) / below,
      fraction: (-parallel * series - value * (series + parallel)) / below,
    }
  },
  domain: { parallel: [10, 5000], series: [2e4, 1e6], fraction: [0.4, 0.6] },
})

/** Coil resistance as that of a box that brings the same current; what the current differs by counts for the whole loop. */
export const coilBySubstitution = formula({
  id: 'upkeep/coil-by-substitution',
  version: 1,
  text: 'R_m = R_b + q (R_s + R_b)',
  unit: 'ohm',
  inputs: { box: 'ohm', mismatch: '1', series: 'ohm' },
  symbols: { box: 'R_b', mismatch: 'q', series: 'R_s' },
  source: { title: "Ohm's law for a loop", where: 'substitution method' },
  evaluate: ({ box, mismatch, series }) => box + mismatch * (series + box),
  partials: ({ box, mismatch, series }) => ({ box: 1 + mismatch, mismatch: series + box, series: mismatch }),
  domain: { box: [10, 5000], mismatch: [-0.01, 0.01], series: [100, 1e5] },
})

/** Current at full deflection, from a reference in series and where the needle stands. */
export const fullScaleCurrent = formula({
  id: 'upkeep/full-scale-current',
  version: 1,
  text: 'I_m = I_r / f',
  unit: 'A',
  inputs: { reference: 'A', fraction: '1' },
  symbols: { reference: 'I_r', fraction: 'f' },
  source: { title: 'deflection of a moving-coil instrument', where: 'proportional to its current' },
  evaluate: ({ reference, fraction }) => reference / fraction,
  partials: ({ reference, fraction }) => ({ reference: 1 / fraction, fraction: -reference / fraction ** 2 }),
  domain: { reference: [1e-5, 1e-2], fraction: [0.5, 1] },
})

/** The laws of measuring a movement, to be looked up by workings. */
export const movementFormulas: readonly AnyFormula[] = [coilByDeflection, coilBySubstitution, fullScaleCurrent]
