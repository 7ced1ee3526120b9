import type { CurveSymbol } from '#core/fit'
import type { Unit } from '#core/quantity'

/** What may stand on an axis of a sweep: what was read, or the gain that follows from it. */
export type SweepSymbol = CurveSymbol | 'h_FE'

/** One point of a sweep, SI units. */
export interface SweepPoint {
  readonly x: number
  readonly y: number
  /** Standard uncertainty of y, where the file states it. */
  readonly u?: number
  /** Row of the file; left out of points that were made. */
  readonly row?: number
}

/** What was held while a sweep was taken. */
export interface Held {
  readonly symbol: CurveSymbol
  readonly value: number
}

/** One quantity against another, its points in the order of x. */
export interface Sweep {
  readonly x: CurveSymbol
  readonly y: SweepSymbol
  readonly at?: Held
  readonly points: readonly SweepPoint[]
}

export const isCurrent = (symbol: SweepSymbol): boolean => symbol.startsWith('I')

export const unitOfSymbol = (symbol: SweepSymbol): Unit =>
  symbol === 'h_FE' ? '1' : symbol === 'T' ? 'degC' : isCurrent(symbol) ? 'A' : 'V'

/** Lowest and highest x of a sweep. */
export const rangeOf = (sweep: Sweep): readonly [low: number, high: number] => [
  sweep.points[0]!.x,
  sweep.points.at(-1)!.x,
]

const namesOf: Readonly<Record<SweepSymbol, string>> = {
  V_F: 'forward voltage',
  I_F: 'forward current',
  V_R: 'reverse voltage',
  I_R: 'reverse current',
  V_BE: 'base-emitter voltage',
  V_CE: 'collector-emitter voltage',
  I_B: 'base current',
  I_C: 'collector current',
  V_GS: 'gate-source voltage',
  V_DS: 'drain-source voltage',
  I_D: 'drain current',
  T: 'temperature',
  h_FE: 'DC current gain',
}

/** What a symbol of a sweep stands for, in words. */
export const sweepName = (symbol: SweepSymbol): string => namesOf[symbol]
