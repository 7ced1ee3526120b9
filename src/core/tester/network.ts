import type { Circuit, Movement, Range } from './tester.ts'

/**
 * Networks of movement, shunts and multipliers: pure numbers, SI units. Kirchhoff's laws for two branches; nothing here
 * knows of tolerance.
 */

/** Resistance of a copper coil at a temperature in degC. */
export const coilOhmAt = (m: Movement, ambientC: number): number => m.coilOhm * (1 + m.copperPerK * (ambientC - m.atC))

/** Resistance a shunt is taken to have: as found where it was measured. */
export const shuntOhmOf = (c: Extract<Circuit, { kind: 'shunt' }>): number => c.asFound?.ohm ?? c.shuntOhm

/** Resistance a multiplier is taken to have: as found where it was measured. */
export const seriesOhmOf = (c: Extract<Circuit, { kind: 'multiplier' }>): number => c.asFound?.ohm ?? c.seriesOhm

/** Current into an individual shunt with the movement across it; the contact stands in series with the shunt. */
export const currentThroughShunt = (movementA: number, coilOhm: number, shuntOhm: number, contactOhm: number): number =>
  (movementA * (coilOhm + contactOhm + shuntOhm)) / (contactOhm + shuntOhm)

/** Current into the tap of a universal shunt with the movement across the whole ring. */
export const currentThroughUniversal = (movementA: number, coilOhm: number, ringOhm: number, tapOhm: number): number =>
  (movementA * (coilOhm + ringOhm)) / tapOhm

/** Voltage across movement and multiplier. */
export const voltageAcrossMultiplier = (movementA: number, coilOhm: number, seriesOhm: number): number =>
  movementA * (coilOhm + seriesOhm)

/**
 * Current or voltage at the terminals of a range for a given current through the movement; undefined for circuits whose
 * insides are not known.
 */
export function atTerminals(circuit: Circuit, movementA: number, coilOhm: number): number | undefined {
  switch (circuit.kind) {
    case 'movement':
      return movementA
    case 'shunt':
      return currentThroughShunt(movementA, coilOhm, shuntOhmOf(circuit), circuit.contactOhm)
    case 'universal':
      return currentThroughUniversal(movementA, coilOhm, circuit.ringOhm, circuit.tapOhm)
    case 'multiplier':
      return voltageAcrossMultiplier(movementA, coilOhm, seriesOhmOf(circuit))
    case 'stated':
    case 'unknown':
      return undefined
  }
}

/** Two resistances side by side. */
export const parallel = (a: number, b: number): number => (a === 0 || b === 0 ? 0 : (a * b) / (a + b))

/** Resistance seen between the terminals of a needle range, ohm; undefined where insides are not known. */
export function terminalOhm(circuit: Circuit, coilOhm: number): number | undefined {
  switch (circuit.kind) {
    case 'movement':
      return coilOhm
    case 'shunt':
      return parallel(coilOhm, shuntOhmOf(circuit) + circuit.contactOhm)
    case 'universal':
      return parallel(circuit.tapOhm, circuit.ringOhm - circuit.tapOhm + coilOhm)
    case 'multiplier':
      return coilOhm + seriesOhmOf(circuit)
    case 'stated':
    case 'unknown':
      return undefined
  }
}

/**
 * Voltage lost in a current range that carries a current, V. Digital ranges lose what their maker states, in proportion;
 * where nothing is stated, nothing is counted.
 */
export function burdenOf(range: Range, movement: Movement | undefined, currentA: number, ambientC?: number): number {
  if (range.measures === 'voltage') return 0
  if (range.circuit.kind === 'stated') return ((range.circuit.burdenV ?? 0) * currentA) / range.fullScale
  if (movement === undefined) return 0
  return currentA * (terminalOhm(range.circuit, coilOhmAt(movement, ambientC ?? movement.atC)) ?? 0)
}

/** Current a voltage range draws from what it measures, A. */
export function drawnOf(range: Range, movement: Movement | undefined, voltageV: number): number {
  if (range.measures === 'current') return 0
  if (range.circuit.kind === 'stated')
    return range.circuit.inputOhm === undefined ? 0 : voltageV / range.circuit.inputOhm
  const ohm = movement === undefined ? undefined : terminalOhm(range.circuit, movement.coilOhm)
  return ohm === undefined ? 0 : voltageV / ohm
}

/** What a shunt, tap or multiplier should be for a range to read its printed full scale, and what it is called. */
export function componentFor(
  range: Range,
  m: Movement,
): { readonly ohm: number; readonly name: 'shunt' | 'tap' | 'series' } | undefined {
  const { circuit, fullScale } = range
  switch (circuit.kind) {
    case 'shunt':
      return { ohm: (m.fullScaleA * m.coilOhm) / (fullScale - m.fullScaleA) - circuit.contactOhm, name: 'shunt' }
    case 'universal':
      return { ohm: (m.fullScaleA * (m.coilOhm + circuit.ringOhm)) / fullScale, name: 'tap' }
    case 'multiplier':
      return { ohm: fullScale / m.fullScaleA - m.coilOhm, name: 'series' }
    case 'movement':
    case 'stated':
    case 'unknown':
      return undefined
  }
}

/** Current through the movement of a series ohmmeter with its zero adjuster across the movement. */
export function ohmmeterCurrent(o: {
  readonly emfV: number
  readonly seriesOhm: number
  readonly partOhm: number
  readonly coilOhm: number
  readonly adjusterOhm: number
}): number {
  const across = parallel(o.coilOhm, o.adjusterOhm)
  return (o.emfV * across) / (o.seriesOhm + o.partOhm + across) / o.coilOhm
}

/** Gain a dial shows when base and collector resistor drop the same voltage: I_B R_B = I_C R_C. */
export const nullRatioGain = (baseOhm: number, collectorOhm: number): number => baseOhm / collectorOhm

/** Gain a base dial shows when the collector stands at a tap of the supply, for an assumed base-emitter voltage. */
export const nullDividerGain = (o: {
  readonly baseOhm: number
  readonly collectorOhm: number
  readonly emfV: number
  readonly tapFraction: number
  readonly baseEmitterV: number
}): number => (o.baseOhm * o.emfV * (1 - o.tapFraction)) / o.collectorOhm / (o.emfV - o.baseEmitterV)
