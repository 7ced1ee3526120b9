import type { Curve, CurveFit, CurveLaw, CurvePoint, CurveSymbol } from '#core/fit'
import { lawOf } from '#core/fit'
import { coverageFactor } from '#core/uncertainty'
import { type Grid, placesOf, smoothed } from './resample.ts'
import { rangeOf, type Sweep } from './sweep.ts'

/** A point of a fitted law with the 95 % interval of the law there. */
export interface FittedPoint {
  readonly x: number
  readonly y: number
  /** Left out where nothing is left to tell the uncertainty of the fit. */
  readonly low?: number
  readonly high?: number
}

/** The law along a sweep. */
export interface FittedSweep extends Pick<Sweep, 'x' | 'y' | 'at'> {
  readonly points: readonly FittedPoint[]
}

export const fittedPointsDefault = 81

/**
 * The fitted law along each of some sweeps, with the interval its parameters leave to it.
 *
 * The covariance of the parameters is carried to the logarithm of the current by slopes of the first order (JCGM
 * 100:2008, 5.2.2), each parameter in the form in which it was fitted; so the interval of a current is lopsided and
 * stays above zero. It is the interval of the law, not of a further reading.
 *
 * @param curve the curve that was fitted
 * @param sweeps of that curve; gains are left out, for no law gives them
 */
export function fittedSweeps(
  curve: Curve,
  fit: CurveFit,
  sweeps: readonly Sweep[],
  points: number = fittedPointsDefault,
): readonly FittedSweep[] {
  const used = sweeps.filter((s) => s.y !== 'h_FE')
  const asked = used.map((s) => askedPoints(s, points))
  const dense = asked.flat().map((p, i): CurvePoint => ({ row: -1 - i, values: p.values, u: {} }))
  const law = lawOf({ ...curve, points: dense }, fit.temperatureC)
  const at = new Map(law.targets.map((t, i) => [`${t.point.row} ${t.symbol}`, i]))
  const spread = spreadOf(law, fit)
  let row = 0
  return used.map((s, k) => ({
    x: s.x,
    y: s.y,
    ...(s.at === undefined ? {} : { at: s.at }),
    points: asked[k]!.flatMap(({ x }) => {
      row -= 1
      const i = at.get(`${row} ${lawSymbol(s.y as CurveSymbol)}`)
      return i === undefined ? [] : (spread(i, x) ?? [])
    }),
  }))
}

/** The law of a diode knows one current, below zero in reverse. */
export const lawSymbol = (symbol: CurveSymbol): CurveSymbol => (symbol === 'I_R' ? 'I_F' : symbol)

/**
 * Places along a sweep with what drives the law there. The values to be predicted are those of the readings, smoothed: by
 * them the law finds the side of a diode and its breakdown, as it did by the readings.
 */
function askedPoints(
  s: Sweep,
  points: number,
): readonly { readonly x: number; readonly values: CurvePoint['values'] }[] {
  const curve = smoothed(s)
  const [low, high] = rangeOf(s)
  const grid: Grid = { points, spacing: 'linear' }
  return placesOf(grid, low, high).map((x) => ({
    x,
    values: { [s.x]: x, ...(s.at === undefined ? {} : { [s.at.symbol]: s.at.value }), [s.y]: curve.at(x) },
  }))
}

/** What the fit says of each target: value and interval. */
function spreadOf(law: CurveLaw, fit: CurveFit): (target: number, x: number) => FittedPoint | undefined {
  const known = new Map(fit.parameters.map((p) => [p.symbol, p]))
  const values = Float64Array.from(law.parameters, (p) => known.get(p.symbol)?.value ?? p.absent ?? p.start)
  const at = (p: Float64Array): Float64Array => {
    const into = new Float64Array(law.targets.length)
    law.evaluate(p, into)
    return into
  }
  const middle = at(values)
  const slopes = slopesOf(law, fit, values, at)
  const factor = coverageFactor(fit.scatter === undefined ? Number.POSITIVE_INFINITY : fit.dof)
  return (i, x) => {
    const y = Math.abs(middle[i]!)
    if (!Number.isFinite(y)) return undefined
    if (slopes === undefined || y === 0) return { x, y }
    let variance = 0
    for (const [a, row] of fit.correlation.matrix.entries())
      for (const [b, c] of row.entries()) variance += c * slopes[a]![i]! * slopes[b]![i]!
    const wide = (factor * Math.sqrt(Math.max(0, variance))) / y
    return { x, y, low: y * Math.exp(-wide), high: y * Math.exp(wide) }
  }
}

/** Step of a numeric slope, as a part of a standard uncertainty: small against it, large against rounding. */
const slopeStep = 0.01

/** How each target moves with one standard uncertainty of each fitted parameter; undefined where those are not known. */
function slopesOf(
  law: CurveLaw,
  fit: CurveFit,
  values: Float64Array,
  at: (p: Float64Array) => Float64Array,
): readonly Float64Array[] | undefined {
  const fitted = fit.correlation.symbols.map((symbol) => {
    const j = law.parameters.findIndex((p) => p.symbol === symbol)
    return { j, scale: law.parameters[j]?.scale, u: fit.parameters.find((p) => p.symbol === symbol)?.u }
  })
  if (fitted.some(({ j, u }) => j < 0 || u === undefined)) return undefined
  return fitted.map(({ j, scale, u }) => {
    const value = values[j]!
    const moved = (sign: 1 | -1): Float64Array => {
      const p = Float64Array.from(values)
      p[j] = scale === 'log' ? value * Math.exp((sign * slopeStep * u!) / value) : value + sign * slopeStep * u!
      return at(p)
    }
    const [up, down] = [moved(1), moved(-1)]
    return up.map((v, i) => (v - down[i]!) / (2 * slopeStep))
  })
}
