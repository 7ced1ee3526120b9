import { incompleteBeta } from './beta.ts'
import { findRoot } from './find-root.ts'
import { gammaCdf, gammaTail } from './gamma.ts'

/**
 * Probability that Fisher's F lies below `f`.
 *
 * @param f ratio of two variances, 0 or more
 * @param top degrees of freedom of the upper variance
 * @param bottom degrees of freedom of the lower variance
 */
export function fisherCdf(f: number, top: number, bottom: number): number {
  if (!(top > 0) || !(bottom > 0) || Number.isNaN(f)) return Number.NaN
  if (f <= 0) return 0
  const x = top * f
  return incompleteBeta(x / (x + bottom), top / 2, bottom / 2, bottom / (x + bottom))
}

/**
 * The ratio of variances that F stays below with probability `p`.
 *
 * @example fisherQuantile(0.95, 9, 40) // 2.124029
 */
export function fisherQuantile(p: number, top: number, bottom: number): number {
  if (!(p >= 0 && p <= 1) || !(top > 0) || !(bottom > 0)) return Number.NaN
  return quantileAboveZero(p, (f) => fisherCdf(f, top, bottom))
}

/** Probability that chi-square with `dof` degrees of freedom lies below `x`. */
export const chiSquareCdf = (x: number, dof: number): number => (x <= 0 ? 0 : gammaCdf(dof / 2, x / 2))

/** Probability that chi-square exceeds `x`. */
export const chiSquareTail = (x: number, dof: number): number => (x <= 0 ? 1 : gammaTail(dof / 2, x / 2))

/** The value chi-square stays below with probability `p`. */
export function chiSquareQuantile(p: number, dof: number): number {
  if (!(p >= 0 && p <= 1) || !(dof > 0)) return Number.NaN
  return quantileAboveZero(p, (x) => chiSquareCdf(x, dof))
}

/** Solves cdf(x) = p for a positive variable, in the logarithm of x. */
function quantileAboveZero(p: number, cdf: (x: number) => number): number {
  if (p === 0) return 0
  if (p === 1) return Number.POSITIVE_INFINITY
  const miss = (y: number): number => cdf(Math.exp(y)) - p
  let low = -1
  while (miss(low) > 0 && low > -700) low *= 2
  let high = 1
  while (miss(high) < 0 && high < 700) high *= 2
  return Math.exp(findRoot(miss, low, high))
}
