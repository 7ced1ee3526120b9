import type { LinearFit } from '#core/numeric'
import { coverageFactor } from '#core/uncertainty'

/** A number found from readings, and the interval that holds the true one with 95 % confidence. */
export interface Estimate {
  readonly value: number
  /** Standard uncertainty, in the unit of the value. */
  readonly u: number
  readonly low: number
  readonly high: number
}

/**
 * A number with its standard uncertainty, and the interval by Student's t.
 *
 * @param dof degrees of freedom of `u`; infinite where it is taken as known
 * @example estimate(10, 1, Number.POSITIVE_INFINITY) // { value: 10, u: 1, low: 8.04, high: 11.96 }
 */
export function estimate(value: number, u: number, dof: number): Estimate {
  const half = u === 0 ? 0 : coverageFactor(dof, 0.95) * u
  return { value, u, low: value - half, high: value + half }
}

/** Standard uncertainty of a fitted straight line [1, x] at a place. */
export const uOfLine = (fit: LinearFit, x: number): number =>
  Math.sqrt(Math.max(0, fit.covariance[0]![0]! + 2 * x * fit.covariance[0]![1]! + x ** 2 * fit.covariance[1]![1]!))
