import { printValue, type Quantity, standardUncertainty } from '#core/quantity'
import { interval95 } from './coverage.ts'
import type { MonteCarlo } from './monte-carlo.ts'

/** How the interval from first-order slopes stands beside that from random trials. */
export interface FirstOrderCheck {
  /** Difference of the lower ends, and of the upper ends; never negative. */
  readonly dLow: number
  readonly dHigh: number
  /** What they may be: half a unit in the second digit of the standard uncertainty. */
  readonly delta: number
  readonly validated: boolean
  /** The answer as a plain sentence. */
  readonly sentence: string
}

/**
 * Whether first order was good enough: both ends of its 95 % interval agree with those of the random trials within half
 * a unit of the second significant digit of the standard uncertainty.
 *
 * @param q the quantity, with its first-order budget
 * @param trials random trials of the same quantity
 * @param compare which interval of the trials is meant
 * @see JCGM 101:2008, 8.1 and 8.2; the guide's own examples compare with the shortest interval
 */
export function firstOrderGoodEnough(
  q: Quantity,
  trials: MonteCarlo,
  compare: 'shortest95' | 'symmetric95' = 'shortest95',
): FirstOrderCheck {
  const [low, high] = interval95(q)
  const [mcLow, mcHigh] = trials[compare]
  const u = standardUncertainty(q)
  const delta = numericalTolerance(u > 0 ? u : trials.standardUncertainty)
  const dLow = Math.abs(low - mcLow)
  const dHigh = Math.abs(high - mcHigh)
  const validated = dLow <= delta && dHigh <= delta
  const print = (x: number): string => printValue(x, q.unit, { digits: 2 })
  const ends = `they differ by ${print(dLow)} at the low end and ${print(dHigh)} at the high end, and ${print(delta)} is allowed`
  const sentence = validated
    ? `First order is good enough: its 95 % interval was compared with ${trials.trials} random trials; ${ends}.`
    : `First order is not good enough here: its 95 % interval was compared with ${trials.trials} random trials; ${ends}. Use the interval of the trials.`
  return { dLow, dHigh, delta, validated, sentence }
}

/** Half a unit in the second significant digit of u, u rounded to two digits (JCGM 101:2008, 7.9.2). */
function numericalTolerance(u: number): number {
  if (!(u > 0)) return 0
  const power = Number(u.toExponential(1).split('e')[1])
  return 0.5 * 10 ** (power - 1)
}
