import { FaultError } from '#core/fault'
import { derive, leaf, limitTerm, type Quantity, type Term, term } from '#core/quantity'
import { coilByDeflection, coilBySubstitution, fullScaleCurrent } from './movement-formulas.ts'

/** A measured resistance: its value, and its standard uncertainty where it is known. */
export interface KnownOhm {
  readonly ohm: number
  readonly u?: number
}

/** A coil resistance as measured, and what the plain rule would have made of it. */
export interface CoilMeasured {
  /** With the method's own error taken out; every other doubt in its budget. */
  readonly coil: Quantity<'ohm'>
  /** What the rule of thumb says, ohm: the resistor itself. */
  readonly plainOhm: number
  /** How far the rule of thumb is off by the method alone, as a part of the coil. */
  readonly methodError: number
}

export interface DeflectionWish {
  /** Resistor across the movement that brings the needle down. */
  readonly parallel: KnownOhm
  /** Everything in series with the movement: resistor, supply, meter. */
  readonly series: KnownOhm
  /** Where the needle stands then, as a part of where it stood: one half. */
  readonly fraction: number
  /** How finely the needle is read, as a part of full scale. */
  readonly readable: number
  /** Limit of error of the scale between the two places, as a part of full scale: its class; left out, none. */
  readonly scale?: number
}

const ohmLeaf = (r: KnownOhm, cause: string, what: string): Quantity<'ohm'> =>
  leaf(
    r.ohm,
    'ohm',
    { kind: 'read', what, seen: `${r.ohm} ohm` },
    r.u === undefined ? [] : [term(`coil/${cause}`, { label: what, u: r.u })],
  )

/** A needle is read twice: where it stood and where it stands now. */
const readingTerms = (readable: number): readonly Term[] =>
  readable === 0
    ? []
    : [
        limitTerm('coil/full', 'reading of full deflection', readable / 2),
        limitTerm('coil/part', 'reading of the lower deflection', readable / 2),
      ]

/**
 * Coil resistance by half deflection: full deflection through a large resistor, then another one across the movement
 * until the needle stands at half. The rule of thumb takes that one for the coil and is low by R_m / (R_s + R_m).
 *
 * @throws {FaultError} `out-of-domain` where the resistor across the movement leaves no coil resistance
 * @example coilByHalf({ parallel: { ohm: 990 }, series: { ohm: 99_000 }, fraction: 0.5, readable: 0 }).coil.value // 1000
 */
export function coilByHalf(w: DeflectionWish): CoilMeasured {
  const { parallel, series, fraction } = w
  if (!(fraction > 0 && fraction < 1 && fraction * series.ohm > (1 - fraction) * parallel.ohm))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'The resistor across the movement',
      value: `${parallel.ohm} ohm`,
      allowed: 'well below the one in series: such readings do not belong together',
    })
  const coil = derive(
    coilByDeflection,
    {
      parallel: ohmLeaf(parallel, 'parallel', 'resistor across the movement'),
      series: ohmLeaf(series, 'series', 'resistance in series'),
      fraction: leaf(fraction, '1', { kind: 'read', what: 'deflection', seen: String(fraction) }, [
        ...readingTerms(w.readable),
        ...(w.scale === undefined ? [] : [limitTerm('coil/scale', 'scale of the movement, by its class', w.scale)]),
      ]),
    },
    'coil resistance',
  )
  const plainOhm = (parallel.ohm * (1 - fraction)) / fraction
  return { coil, plainOhm, methodError: plainOhm / coil.value - 1 }
}

export interface SubstitutionWish {
  /** Box set to the same current in place of the movement. */
  readonly box: KnownOhm
  /** Everything else in the loop, ohm. */
  readonly seriesOhm: number
  /** How closely the current was brought back, as a part of it: what the meter in the loop can tell. */
  readonly within: number
}

/**
 * Coil resistance by substitution: a box in place of the movement, set until a meter in the loop reads the same. What the
 * meter cannot tell counts for the whole loop, so that it wants little resistance in series.
 */
export function coilBySwap({ box, seriesOhm, within }: SubstitutionWish): CoilMeasured {
  const mismatch = leaf(
    0,
    '1',
    { kind: 'read', what: 'difference of the two currents', seen: 'none seen' },
    within === 0 ? [] : [limitTerm('coil/mismatch', 'what the meter in the loop can tell', within)],
  )
  const series = leaf(seriesOhm, 'ohm', { kind: 'stated', what: 'rest of the loop' })
  const coil = derive(
    coilBySubstitution,
    { box: ohmLeaf(box, 'box', 'box in place of the movement'), mismatch, series },
    'coil resistance',
  )
  return { coil, plainOhm: box.ohm, methodError: 0 }
}

/** Current at full deflection, from a reference meter in series with the movement. */
export const fullScaleOf = (
  reference: { readonly ampere: number; readonly u?: number },
  fraction: number,
  readable: number,
): Quantity<'A'> =>
  derive(
    fullScaleCurrent,
    {
      reference: leaf(
        reference.ampere,
        'A',
        { kind: 'read', what: 'reference meter', seen: `${reference.ampere} A` },
        reference.u === undefined ? [] : [term('full-scale/reference', { label: 'reference meter', u: reference.u })],
      ),
      fraction: leaf(
        fraction,
        '1',
        { kind: 'read', what: 'deflection', seen: String(fraction) },
        readable === 0 ? [] : [limitTerm('full-scale/reading', 'reading of the needle', readable / 2)],
      ),
    },
    'full-scale current',
  )
