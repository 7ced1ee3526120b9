/**
 * What a curve may hold, by letter symbol. Reverse values of a diode are read as magnitudes (`V_R`, `I_R`); `T` is the
 * temperature of a row, degC.
 */
export const curveSymbols = [
  'V_F',
  'I_F',
  'V_R',
  'I_R',
  'V_BE',
  'V_CE',
  'I_B',
  'I_C',
  'V_GS',
  'V_DS',
  'I_D',
  'T',
] as const

export type CurveSymbol = (typeof curveSymbols)[number]

export const fitKinds = ['diode', 'bjt', 'jfet', 'mosfet'] as const

export type FitKind = (typeof fitKinds)[number]

/** One row of a curve: what was set and read, SI units; signs as if NPN or n-channel. */
export interface CurvePoint {
  /** Row of the file, for messages. */
  readonly row: number
  readonly values: Readonly<Partial<Record<CurveSymbol, number>>>
  /** Standard uncertainty of each, in its unit, where the file states it. */
  readonly u: Readonly<Partial<Record<CurveSymbol, number>>>
}

/** What was read of one part: a sweep, or a family of them; rows need not hold every quantity. */
export interface Curve {
  /** Tag of the part, or the name of the file. */
  readonly name: string
  readonly kind: FitKind
  /** `pnp` and `p` where the file has its voltages and currents below zero. */
  readonly polarity: 'n' | 'p'
  readonly points: readonly CurvePoint[]
  /** How the file was understood, sentences. */
  readonly notes: readonly string[]
}
