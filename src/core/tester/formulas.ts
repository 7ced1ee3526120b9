import { type AnyFormula, formula } from '#core/quantity'
import { correctedCurrent, correctedGain, correctedVoltage } from './calibration.ts'
import { currentThroughShunt, currentThroughUniversal, voltageAcrossMultiplier } from './network.ts'

const kirchhoff = {
  title: "Kirchhoff's laws for movement, shunt and multiplier",
  where: 'core/tester/network',
} as const

/** Ranges in which the laws are meant: movements from 10 uA to 10 mA, shunts down to a milliohm. */
const deflection = [0.1, 100] as const
const divisions = [20, 150] as const
const movement = [1e-5, 1e-2] as const
const coil = [1, 1e4] as const
const shunt = [1e-3, 1e4] as const

/** A copper coil at the ambient temperature. */
export const coilResistance = formula({
  id: 'tester/coil-resistance',
  version: 1,
  text: 'R_m = R_0 (1 + a (T - T_0))',
  unit: 'ohm',
  inputs: { stated: 'ohm', copper: '1/K', ambient: 'degC', reference: 'degC' },
  symbols: { stated: 'R_0', copper: 'a', ambient: 'T', reference: 'T_0' },
  source: { title: 'IEC 60028, resistance of copper', where: 'linear change about 20 degC', standing: 'from memory' },
  evaluate: ({ stated, copper, ambient, reference }) => stated * (1 + copper * (ambient - reference)),
  partials: ({ stated, copper, ambient, reference }) => ({
    stated: 1 + copper * (ambient - reference),
    copper: stated * (ambient - reference),
    ambient: stated * copper,
    reference: -stated * copper,
  }),
  domain: { stated: coil, copper: [0, 0.0045], ambient: [5, 40], reference: [15, 25] },
})

/** Current straight through the movement. */
export const movementCurrent = formula({
  id: 'tester/movement-current',
  version: 1,
  text: 'I = (d / N) I_m',
  unit: 'A',
  inputs: { deflection: 'div', divisions: 'div', movement: 'A' },
  symbols: { deflection: 'd', divisions: 'N', movement: 'I_m' },
  source: { title: 'deflection of a moving-coil instrument', where: 'proportional to its current' },
  evaluate: ({ deflection, divisions, movement }) => (deflection / divisions) * movement,
  partials: ({ deflection, divisions, movement }) => ({
    deflection: movement / divisions,
    divisions: (-deflection * movement) / divisions ** 2,
    movement: deflection / divisions,
  }),
  domain: { deflection, divisions, movement },
})

/** Current at a range with a shunt of its own; the contact stands in series with the shunt. */
export const shuntCurrent = formula({
  id: 'tester/shunt-current',
  version: 1,
  text: 'I = (d / N) I_m (R_m + R_c + R_s) / (R_c + R_s)',
  unit: 'A',
  inputs: { deflection: 'div', divisions: 'div', movement: 'A', coil: 'ohm', contact: 'ohm', shunt: 'ohm' },
  symbols: { deflection: 'd', divisions: 'N', movement: 'I_m', coil: 'R_m', contact: 'R_c', shunt: 'R_s' },
  source: kirchhoff,
  evaluate: ({ deflection, divisions, movement, coil, contact, shunt }) =>
    currentThroughShunt((deflection / divisions) * movement, coil, shunt, contact),
  partials: ({ deflection, divisions, movement, coil, contact, shunt }) => {
    const side = contact + shunt
    const factor = (coil + side) / side
    const current = (deflection / divisions) * movement
    const byShunt = (-current * coil) / side ** 2
    return {
      deflection: (movement * factor) / divisions,
      divisions: (-current * factor) / divisions,
      movement: (deflection * factor) / divisions,
      coil: current / side,
      contact: byShunt,
      shunt: byShunt,
    }
  },
  domain: { deflection, divisions, movement, coil, contact: [0, 0.1], shunt },
})

/** Current into the tap of a universal shunt. */
export const universalCurrent = formula({
  id: 'tester/universal-current',
  version: 1,
  text: 'I = (d / N) I_m (R_m + R_u) / R_t',
  unit: 'A',
  inputs: { deflection: 'div', divisions: 'div', movement: 'A', coil: 'ohm', ring: 'ohm', tap: 'ohm' },
  symbols: { deflection: 'd', divisions: 'N', movement: 'I_m', coil: 'R_m', ring: 'R_u', tap: 'R_t' },
  source: kirchhoff,
  evaluate: ({ deflection, divisions, movement, coil, ring, tap }) =>
    currentThroughUniversal((deflection / divisions) * movement, coil, ring, tap),
  partials: ({ deflection, divisions, movement, coil, ring, tap }) => {
    const factor = (coil + ring) / tap
    const current = (deflection / divisions) * movement
    return {
      deflection: (movement * factor) / divisions,
      divisions: (-current * factor) / divisions,
      movement: (deflection * factor) / divisions,
      coil: current / tap,
      ring: current / tap,
      tap: (-current * factor) / tap,
    }
  },
  domain: { deflection, divisions, movement, coil, ring: [10, 1e5], tap: shunt },
})

/** Voltage at a range with a multiplier. */
export const multiplierVoltage = formula({
  id: 'tester/multiplier-voltage',
  version: 1,
  text: 'V = (d / N) I_m (R_m + R_s)',
  unit: 'V',
  inputs: { deflection: 'div', divisions: 'div', movement: 'A', coil: 'ohm', series: 'ohm' },
  symbols: { deflection: 'd', divisions: 'N', movement: 'I_m', coil: 'R_m', series: 'R_s' },
  source: kirchhoff,
  evaluate: ({ deflection, divisions, movement, coil, series }) =>
    voltageAcrossMultiplier((deflection / divisions) * movement, coil, series),
  partials: ({ deflection, divisions, movement, coil, series }) => {
    const current = (deflection / divisions) * movement
    return {
      deflection: (movement * (coil + series)) / divisions,
      divisions: (-current * (coil + series)) / divisions,
      movement: (deflection * (coil + series)) / divisions,
      coil: current,
      series: current,
    }
  },
  domain: { deflection, divisions, movement, coil, series: [10, 1e7] },
})

const scaleReading = { title: 'reading of a linear scale', where: 'in proportion to full scale' } as const

/** Current on a range whose insides are not known: the scale is taken at its word. */
export const scaleCurrent = formula({
  id: 'tester/scale-current',
  version: 1,
  text: 'I = (d / N) I_fs',
  unit: 'A',
  inputs: { deflection: 'div', divisions: 'div', fullScale: 'A' },
  symbols: { deflection: 'd', divisions: 'N', fullScale: 'I_fs' },
  source: scaleReading,
  evaluate: ({ deflection, divisions, fullScale }) => (deflection / divisions) * fullScale,
  partials: ({ deflection, divisions, fullScale }) => ({
    deflection: fullScale / divisions,
    divisions: (-deflection * fullScale) / divisions ** 2,
    fullScale: deflection / divisions,
  }),
  domain: { deflection, divisions, fullScale: [1e-6, 10] },
})

/** Voltage on a range whose insides are not known. */
export const scaleVoltage = formula({
  id: 'tester/scale-voltage',
  version: 1,
  text: 'V = (d / N) V_fs',
  unit: 'V',
  inputs: { deflection: 'div', divisions: 'div', fullScale: 'V' },
  symbols: { deflection: 'd', divisions: 'N', fullScale: 'V_fs' },
  source: scaleReading,
  evaluate: ({ deflection, divisions, fullScale }) => (deflection / divisions) * fullScale,
  partials: ({ deflection, divisions, fullScale }) => ({
    deflection: fullScale / divisions,
    divisions: (-deflection * fullScale) / divisions ** 2,
    fullScale: deflection / divisions,
  }),
  domain: { deflection, divisions, fullScale: [1e-2, 1000] },
})

/** What is left of a supply's voltage at the part. */
export const supplyVoltage = formula({
  id: 'tester/supply-at-part',
  version: 1,
  text: 'V = V_s - I R_i - V_b',
  unit: 'V',
  inputs: { open: 'V', current: 'A', source: 'ohm', burden: 'V' },
  symbols: { open: 'V_s', current: 'I', source: 'R_i', burden: 'V_b' },
  source: { title: "Ohm's law", where: 'source resistance and meter in series with the part' },
  evaluate: ({ open, current, source, burden }) => open - current * source - burden,
  partials: ({ current, source }) => ({ open: 1, current: -source, source: -current, burden: -1 }),
  domain: { open: [1, 60], current: [0, 0.1], source: [0, 20], burden: [0, 0.3] },
})

/** Every law of the tester, as the registry of all formulas takes it. */
export const testerFormulas: readonly AnyFormula[] = [
  coilResistance,
  movementCurrent,
  shuntCurrent,
  universalCurrent,
  multiplierVoltage,
  scaleCurrent,
  scaleVoltage,
  supplyVoltage,
  correctedCurrent,
  correctedVoltage,
  correctedGain,
]
