import { normalCdf, normalQuantile, studentCdf } from '#core/numeric'
import { type Quantity, standardUncertainty } from '#core/quantity'
import { allFormulas } from '#core/reduce'
import { bendWorthSampling, chanceInside, curvature, effectiveDof, straightened } from '#core/uncertainty'
import type { Method, Rule, VerdictWord } from './verdict.ts'

/** The values that are allowed; one end may be open. */
export interface Tolerance {
  readonly min?: number
  readonly max?: number
}

export interface Conformance {
  /** Probability that the true value lies inside. */
  readonly probability: number
  readonly method: Method
}

export interface TrialOptions {
  /** Most random trials where first order is poor; 0 for none. A tenth of them do where the answer is not close. */
  readonly trials: number
  readonly seed: number
  /** Probability at which a verdict turns, and 1 less it. */
  readonly turnsAt?: number
}

/**
 * Conformance probability of a normal or t-distributed value.
 *
 * @param dof effective degrees of freedom; infinite is the normal distribution
 * @see JCGM 106:2012, 7.3 and 7.4
 * @example conformanceProbability(-5.47, 0.05, { max: -5.4 }) // 0.919
 */
export function conformanceProbability(
  value: number,
  u: number,
  t: Tolerance,
  dof: number = Number.POSITIVE_INFINITY,
): number {
  if (u === 0) return isInside(value, t) ? 1 : 0
  const below = (limit: number): number => studentCdf((limit - value) / u, dof)
  const above = (limit: number): number => studentCdf((value - limit) / u, dof)
  if (t.min === undefined) return t.max === undefined ? 1 : below(t.max)
  if (t.max === undefined) return above(t.min)
  return Math.max(0, below(t.max) - below(t.min))
}

/** Whether a value lies inside, the ends counted in. */
export const isInside = (value: number, t: Tolerance): boolean =>
  value >= (t.min ?? Number.NEGATIVE_INFINITY) && value <= (t.max ?? Number.POSITIVE_INFINITY)

/**
 * Conformance probability of a quantity: first order with the t distribution of its effective degrees of freedom; by
 * random trials where the formulas bend within the doubt of their inputs and the answer is not plain anyway.
 */
export function conformance(q: Quantity, t: Tolerance, options: TrialOptions): Conformance {
  const u = standardUncertainty(q)
  const probability = conformanceProbability(q.value, u, t, effectiveDof(q))
  const isPlain = probability < plain || probability > 1 - plain
  if (isPlain || options.trials === 0 || curvature(q, allFormulas) <= bendWorthSampling)
    return { probability, method: 'first order' }
  return { probability: sampledProbability(q, t, options), method: 'random trials' }
}

/** A first-order probability this near to 0 or 1 is not sampled. */
const plain = 1e-3

function sampledProbability(q: Quantity, t: Tolerance, options: TrialOptions): number {
  const { trials, seed, turnsAt = 0.95 } = options
  const [low, high] = [t.min ?? Number.NEGATIVE_INFINITY, t.max ?? Number.POSITIVE_INFINITY]
  const every = Math.max(400, Math.round(trials / 10))
  const isEnough = (p: number, error: number): boolean => !isClose(p, error, turnsAt)
  return chanceInside(straightened(q, allFormulas), low, high, { formulas: allFormulas, trials, seed, every, isEnough })
}

/** Whether more trials might turn the verdict: within three standard errors of where it turns. */
const isClose = (p: number, error: number, turnsAt: number): boolean =>
  Math.abs(p - turnsAt) < 3 * error || Math.abs(p - (1 - turnsAt)) < 3 * error

/** The word for a probability, by the rule. */
export function decide(probability: number, value: number, t: Tolerance, rule: Rule): VerdictWord {
  if (rule.kind === 'simple') return isInside(value, t) ? 'conforms' : 'does not conform'
  if (probability >= rule.probability) return 'conforms'
  return probability <= 1 - rule.probability ? 'does not conform' : 'undecided'
}

/**
 * Guard band: how far inside a one-sided limit a value must lie to conform with a probability.
 *
 * @see JCGM 106:2012, 8.3
 * @example guardBand(0.05, 0.95) // 0.0822
 */
export const guardBand = (u: number, probability: number): number => u * normalQuantile(probability)

/** The values that may be accepted: the tolerance less a guard band at each end; a negative band widens it. */
export const acceptance = (t: Tolerance, band: number): Tolerance => ({
  ...(t.min === undefined ? {} : { min: t.min + band }),
  ...(t.max === undefined ? {} : { max: t.max - band }),
})

/**
 * Measurement capability index C_m = (T_U - T_L) / (4 u).
 *
 * @see JCGM 106:2012, 7.6
 */
export const capabilityIndex = (t: Required<Tolerance>, u: number): number => (t.max - t.min) / (4 * u)

/**
 * Largest standard uncertainty that decides by the guarded rule, if the value stays where it is: inside with
 * `probability`, or outside with it. 0 where the value lies on a limit.
 */
export function deciding(value: number, t: Tolerance, probability: number): number {
  const z = normalQuantile(probability)
  const distances = [t.min, t.max].filter((x) => x !== undefined).map((x) => Math.abs(value - x))
  const nearest = Math.min(...distances)
  if (!isInside(value, t) || distances.length < 2) return nearest / z
  return bisected(nearest, (u) => insideNormal(value, u, t) - probability)
}

const insideNormal = (value: number, u: number, t: Tolerance): number =>
  u === 0 ? 1 : normalCdf((t.max! - value) / u) - normalCdf((t.min! - value) / u)

/** Where a falling function crosses zero between 0 and `high`. */
function bisected(high: number, f: (x: number) => number): number {
  let [a, b] = [0, high]
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2
    if (f(middle) > 0) a = middle
    else b = middle
  }
  return a
}
