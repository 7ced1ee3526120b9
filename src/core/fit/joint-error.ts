import { cholesky, type FitModel } from '#core/numeric'
import { covariance, leaf, type Quantity, sumBudget, term } from '#core/quantity'
import { type Curve, type CurveSymbol, curveSymbols } from './curve.ts'
import { type Held, isKnown } from './describe-fit.ts'
import type { HandRun } from './hand-run.ts'
import { type CurveLaw, indexOfParameter } from './law.ts'
import { inLogarithms, type Observed } from './observed.ts'

/** A law made anew for other values of what was set. */
export type LawFor = (curve: Curve, temperatureC: number) => CurveLaw

/** Parameters that are held at a value with a doubt: index and standard uncertainty. */
export type HeldDoubts = ReadonlyMap<number, number>

/** Part of a value by which it is moved to see what hangs on it. */
const nudge = 1e-4

/**
 * How far ln of each reading may lie from ln of the law: its own budget, and those of what was set, of the temperature
 * and of parameters held at a doubtful value, each times how the law changes with it.
 *
 * @see J. Orear, Least squares when both variables have uncertainties, Am. J. Phys. 50 (1982) 912-916
 */
export function jointErrors(
  run: HandRun,
  curve: Curve,
  lawFor: LawFor,
  values: readonly number[],
  doubts: HeldDoubts,
): readonly Quantity[] {
  const temperatureC = run.temperature.value
  const law = lawFor(curve, temperatureC)
  const logs = (of: CurveLaw, at: readonly number[] = values): Float64Array => {
    const into = new Float64Array(of.targets.length)
    inLogarithms(of).evaluate(Float64Array.from(at), into)
    return into
  }
  const between = (up: Float64Array, down: Float64Array, whole: number) => up.map((v, i) => (v - down[i]!) / whole)
  const set = curveSymbols.filter((s) => curve.points.some((p) => p.values[s] !== undefined))
  const bySet = set.map((s) => {
    const up = logs(lawFor(moved(curve, s, 1), temperatureC))
    const down = logs(lawFor(moved(curve, s, -1), temperatureC))
    return [s, up.map((v, i) => (v - down[i]!) / (2 * moveOf(law.targets[i]!.point.values[s])))] as const
  })
  const step = 0.01
  const byTemperature = between(
    logs(lawFor(curve, temperatureC + step)),
    logs(lawFor(curve, temperatureC - step)),
    2 * step,
  )
  const byHeld = [...doubts].map(([j, u]) => {
    const by = (d: number): Float64Array => logs(law, values.with(j, values[j]! + d))
    return [heldQuantity(law, j, values[j]!, u), between(by(u / 10), by(-u / 10), u / 5)] as const
  })
  const rows = new Map(run.rows.map((r) => [r.row, r.values]))
  return law.targets.map((t, i) => {
    const row = rows.get(t.point.row)!
    const read = row[t.symbol] ?? row.I_R!
    const parts: (readonly [Quantity, number])[] = [[read, 1 / read.value]]
    for (const [s, slopes] of bySet) {
      const q = row[s]
      if (q !== undefined && slopes[i] !== 0) parts.push([q, -slopes[i]!])
    }
    parts.push([run.temperature, -byTemperature[i]!])
    for (const [q, slopes] of byHeld) parts.push([q, -slopes[i]!])
    const what = { kind: 'read', what: `ln ${t.symbol} less the law`, seen: '' } as const
    return { ...leaf(0, '1', what), ...sumBudget(parts) }
  })
}

const heldQuantity = (law: CurveLaw, j: number, value: number, u: number): Quantity => {
  const { symbol } = law.parameters[j]!
  const given = { kind: 'stated', what: symbol } as const
  return leaf(value, '1', given, [term(`held/${symbol}`, { label: `${symbol} as you gave it`, u })])
}

/** By how much a value is moved to see what hangs on it. */
const moveOf = (value = 0): number => nudge * (Math.abs(value) || 1)

/** A curve with all values of one symbol moved up or down; what is read against them stays. */
const moved = (curve: Curve, symbol: CurveSymbol, way: 1 | -1): Curve => ({
  ...curve,
  points: curve.points.map((p) => {
    const value = p.values[symbol]
    return value === undefined ? p : { ...p, values: { ...p.values, [symbol]: value + way * moveOf(value) } }
  }),
})

/**
 * Readings that err together, turned so that each direction errs by itself: with V = L L^T both sides are multiplied by
 * the inverse of L.
 *
 * @returns undefined where some combination of the readings has no uncertainty at all
 */
export function together(
  law: CurveLaw,
  errors: readonly Quantity[],
): { seen: Observed; lower: number[][] } | undefined {
  const lower = cholesky(errors.map((a) => errors.map((b) => covariance(a, b))))
  if (lower.some((row, i) => !(row[i]! > 0))) return undefined
  const plain = inLogarithms(law)
  const model: FitModel = {
    evaluate: (p, values) => {
      plain.evaluate(p, values)
      forward(lower, values)
    },
    ...(plain.slopes === undefined
      ? {}
      : {
          slopes: (p, into) => {
            plain.slopes!(p, into)
            for (const column of into) forward(lower, column)
          },
        }),
  }
  const y = Float64Array.from(law.targets, (t) => Math.log(Math.abs(t.value)))
  forward(lower, y)
  return {
    seen: { model, y: [...y], sigma: y.length === 0 ? [] : new Array<number>(y.length).fill(1), isKnown: isKnown(law) },
    lower,
  }
}

/** Solves L x = b in place. */
function forward(lower: readonly (readonly number[])[], b: Float64Array): void {
  for (let i = 0; i < b.length; i++) {
    for (let k = 0; k < i; k++) b[i]! -= lower[i]![k]! * b[k]!
    b[i]! /= lower[i]![i]!
  }
}

/** Solves L^T x = b in place. */
export function backward(lower: readonly (readonly number[])[], b: Float64Array): void {
  for (let i = b.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < b.length; k++) b[i]! -= lower[k]![i]! * b[k]!
    b[i]! /= lower[i]![i]!
  }
}

/** Held values that were given with a doubt, by index. @throws {FaultError} where one names nothing */
export function heldDoubts(law: CurveLaw, held: Held, fixU: Readonly<Record<string, number>>): HeldDoubts {
  const found = Object.entries(fixU).map(([symbol, u]) => [indexOfParameter(law, symbol), u] as const)
  return new Map(found.filter(([j, u]) => held.has(j) && u > 0))
}
