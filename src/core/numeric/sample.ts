import { FaultError } from '#core/fault'
import { Extended } from './extended.ts'

/** What a sample says: count, mean and standard deviation (n - 1 in the divisor). */
export interface SampleSummary {
  readonly count: number
  readonly mean: number
  /** NaN for a single value. */
  readonly sd: number
}

/**
 * Mean and standard deviation, summed in extended precision in two passes, so that nothing but the rounding of the data
 * themselves is lost.
 *
 * @throws {FaultError} `out-of-domain` for no values at all
 * @see NIST Statistical Reference Datasets, univariate summary statistics, which it is tested on
 */
export function summarize(values: ArrayLike<number>): SampleSummary {
  const count = values.length
  if (count === 0)
    throw new FaultError({ code: 'out-of-domain', name: 'count of values', value: 0, allowed: 'at least 1' })
  const mean = extendedMean(values)
  const squares = new Extended()
  const d = new Extended()
  for (let i = 0; i < count; i++) {
    d.set(values[i]!).add(-mean.hi, -mean.lo)
    squares.addProduct(d.hi, d.lo, d.hi, d.lo)
  }
  return { count, mean: mean.value, sd: count === 1 ? Number.NaN : Math.sqrt(squares.value / (count - 1)) }
}

function extendedMean(values: ArrayLike<number>): Extended {
  const sum = new Extended()
  for (let i = 0; i < values.length; i++) sum.add(values[i]!)
  return sum.over(values.length)
}

/** Covariance of two samples of the same length taken together (n - 1 in the divisor). */
export function sampleCovariance(x: ArrayLike<number>, y: ArrayLike<number>): number {
  const count = x.length
  if (count < 2 || y.length !== count)
    throw new FaultError({
      code: 'out-of-domain',
      name: 'samples',
      value: `${count} and ${y.length} values`,
      allowed: 'of the same length, at least 2',
    })
  const mx = extendedMean(x)
  const my = extendedMean(y)
  const sum = new Extended()
  const dx = new Extended()
  const dy = new Extended()
  for (let i = 0; i < count; i++) {
    dx.set(x[i]!).add(-mx.hi, -mx.lo)
    dy.set(y[i]!).add(-my.hi, -my.lo)
    sum.addProduct(dx.hi, dx.lo, dy.hi, dy.lo)
  }
  return sum.value / (count - 1)
}

/** Correlation of each value with the one `lag` places later: near 0 for a steady reading, near 1 for a drifting one. */
export function autocorrelation(values: ArrayLike<number>, lag = 1): number {
  const mean = extendedMean(values)
  const all = new Extended()
  const lagged = new Extended()
  const d = new Extended()
  const e = new Extended()
  for (let i = 0; i < values.length; i++) {
    d.set(values[i]!).add(-mean.hi, -mean.lo)
    all.addProduct(d.hi, d.lo, d.hi, d.lo)
    if (i + lag >= values.length) continue
    e.set(values[i + lag]!).add(-mean.hi, -mean.lo)
    lagged.addProduct(d.hi, d.lo, e.hi, e.lo)
  }
  return lagged.value / all.value
}

/**
 * Quantile of values sorted upwards, interpolated between neighbours so that 0 gives the first and 1 the last.
 *
 * @see R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages, Am. Stat. 50 (1996) 361-365, definition 7
 */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  if (sorted.length === 0 || !(p >= 0 && p <= 1)) return Number.NaN
  const place = p * (sorted.length - 1)
  const below = Math.floor(place)
  const low = sorted[below]!
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!
  return low + (place - below) * (high - low)
}

/** Quantile of values in any order; see `quantileOfSorted`. */
export const quantile = (values: ArrayLike<number>, p: number): number =>
  quantileOfSorted(Float64Array.from(values).sort(), p)

export const median = (values: ArrayLike<number>): number => quantile(values, 0.5)
