import { FaultError } from '#core/fault'
import type { CurvePoint, CurveSymbol, FitKind } from './curve.ts'

/** A parameter of a law to be fitted. */
export interface LawParameter {
  /** Letter symbol, as people read it. */
  readonly symbol: string
  /** Name on a `.model` card; left out where a card has none. */
  readonly card?: string
  /** In SI units; A/V2 and 1/V have no prefix. */
  readonly unit: string
  readonly start: number
  readonly low: number
  readonly high: number
  readonly scale: 'linear' | 'log'
  /** Value on the card at which the parameter is absent: it is held there where the data cannot tell it from that. */
  readonly absent?: number
  /** Absent where it is large, as a knee or an Early voltage; else where it is small. */
  readonly isGoneAbove?: true
  /** Symbol of the one without which its size says nothing: no limit is given for it where that one is held. */
  readonly sizedBy?: string
  /** Why it is held from the beginning. */
  readonly held?: string
}

/** One reading that a law predicts. */
export interface Target {
  readonly point: CurvePoint
  readonly symbol: CurveSymbol
  readonly value: number
  readonly u?: number
}

/** A law set up for a curve. */
export interface CurveLaw {
  readonly kind: FitKind
  readonly parameters: readonly LawParameter[]
  readonly targets: readonly Target[]
  /** Writes the predicted reading of each target. */
  readonly evaluate: (parameters: Float64Array, values: Float64Array) => void
  readonly slopes?: (parameters: Float64Array, into: readonly Float64Array[]) => void
  readonly notes: readonly string[]
}

/** Index of a parameter by its symbol or its name on a card. @throws {FaultError} `not-found` */
export function indexOfParameter(law: CurveLaw, symbol: string): number {
  const wanted = symbol.toLowerCase()
  const j = law.parameters.findIndex((p) => p.symbol.toLowerCase() === wanted || p.card === wanted)
  if (j >= 0) return j
  throw new FaultError({
    code: 'not-found',
    what: `parameter of a ${law.kind}`,
    name: symbol,
    near: [],
    mend: `Its parameters are ${law.parameters.map((p) => p.symbol).join(', ')}.`,
  })
}

/** Readings of some quantities, where they can be used. */
export const targetsOf = (
  points: readonly CurvePoint[],
  symbols: readonly CurveSymbol[],
  isUsable: (point: CurvePoint, value: number) => boolean,
): readonly Target[] => {
  const targets: Target[] = []
  for (const symbol of symbols)
    for (const point of points) {
      const value = point.values[symbol]
      if (value === undefined || !isUsable(point, value)) continue
      const u = point.u[symbol]
      targets.push(u === undefined ? { point, symbol, value } : { point, symbol, value, u })
    }
  return targets
}

/** Straight line through ln y by least squares: intercept and slope; undefined below two different x. */
export function logLine(x: readonly number[], y: readonly number[]): { at0: number; slope: number } | undefined {
  const n = x.length
  const mx = x.reduce((a, b) => a + b, 0) / n
  const my = y.reduce((a, b) => a + Math.log(b), 0) / n
  let xx = 0
  let xy = 0
  for (let i = 0; i < n; i++) {
    xx += (x[i]! - mx) ** 2
    xy += (x[i]! - mx) * (Math.log(y[i]!) - my)
  }
  return xx > 0 && n > 1 ? { at0: my - (xy / xx) * mx, slope: xy / xx } : undefined
}
