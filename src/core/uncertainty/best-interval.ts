import type { AnyFormula, Quantity } from '#core/quantity'
import { coverage, interval95 } from './coverage.ts'
import { bendWorthSampling, curvature, logCurvature } from './curvature.ts'
import { monteCarlo } from './monte-carlo.ts'
import { straightened } from './straighten.ts'

/** How an interval was found. */
export type IntervalMethod = 'first order' | 'first order of the logarithm' | 'random trials'

export interface BestInterval {
  readonly interval: readonly [low: number, high: number]
  readonly method: IntervalMethod
}

/** Enough trials for the ends of an interval to within a few hundredths of u, quick enough for a whole lot. */
const trials = 4096

/**
 * The 95 % interval by the plainest way that holds: the budget to first order where the formulas are straight enough
 * within the doubt of their inputs; the same of the logarithm where they are straight there, as for exponential laws;
 * else seeded random trials.
 *
 * @see JCGM 100:2008, G.6.4; JCGM 101:2008, clause 7
 */
export function bestInterval(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>): BestInterval {
  if (curvature(q, formulas) <= bendWorthSampling) return { interval: interval95(q), method: 'first order' }
  if (logCurvature(q, formulas) <= bendWorthSampling) {
    const reach = Math.exp(coverage(q).expanded / q.value)
    return { interval: [q.value / reach, q.value * reach], method: 'first order of the logarithm' }
  }
  const got = monteCarlo(straightened(q, formulas), { formulas, trials, seed: 1 })
  return { interval: got.symmetric95, method: 'random trials' }
}
