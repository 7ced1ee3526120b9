import { cholesky, Random } from '#core/numeric'
import { covariance, type Quantity } from '#core/quantity'

/** How many trials the probability of a set comes from. */
export const sureDefaults = { trials: 20_000, seed: 1 } as const

/**
 * Probability that true values all lie within a tolerance of each other, from their budgets. A cause that several share
 * (one meter, one range) moves them together and cancels in their differences; first order, every cause taken as normal.
 *
 * @param values one parameter of each part of a set, in one unit
 * @param isMet whether values as they might truly be meet the tolerance
 * @see JCGM 101:2008, 6.4.8, sampling correlated values; only their differences matter for an absolute tolerance
 */
export function probabilityMet(
  values: readonly Quantity[],
  isMet: (truly: Float64Array) => boolean,
  options: Partial<{ readonly trials: number; readonly seed: number }> = {},
): number {
  const { trials, seed } = { ...sureDefaults, ...options }
  const root = cholesky(values.map((a) => values.map((b) => covariance(a, b))))
  const random = new Random(seed, 'sureness')
  const z = new Float64Array(values.length)
  const truly = new Float64Array(values.length)
  let met = 0
  for (let t = 0; t < trials; t++) {
    random.fillNormal(z)
    for (let i = 0; i < values.length; i++) {
      truly[i] = values[i]!.value
      for (let j = 0; j <= i; j++) truly[i]! += root[i]![j]! * z[j]!
    }
    if (isMet(truly)) met++
  }
  return met / trials
}
