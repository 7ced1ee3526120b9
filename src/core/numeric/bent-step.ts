import { dampedStep } from './linear-step.ts'
import { dot, lengthOf, type Search } from './search.ts'

/** Part of a step at which the curvature along it is probed. */
const probePart = 0.1

/** A bend longer than this part of the step says that the step is too long for it. */
const longestBend = 0.3

/** Where the last step fell as promised to this part, the next is not bent: the linear model holds. */
const straight = 0.1

/** A step shorter than this, in standard errors, is not bent. */
const shortest = 1

/**
 * Bends a step along the curvature of the residuals in its direction, so that it follows narrow curved valleys.
 *
 * @see M. Transtrum, J. Sethna, Improvements to the Levenberg-Marquardt algorithm for nonlinear least-squares
 *   minimization, arXiv:1201.5885 (2012)
 */
export function bend(s: Search, step: Float64Array, damping: number): void {
  const { at, free, shape, slopes, trial, tried } = s
  const { parts } = s.linear
  if (Math.abs(s.ratio - 1) < straight || s.offset < shortest) return
  if (step.every((x, k) => Math.abs(x / shape[free[k]!]!) <= 1e-5 * Math.abs(at[free[k]!]!))) return
  trial.set(at)
  for (const [k, j] of free.entries()) trial[j]! += (probePart * step[k]!) / shape[j]!
  if (!s.problem.residuals(trial, tried)) return
  for (let i = 0; i < tried.length; i++) tried[i] = (2 / probePart ** 2) * (tried[i]! - s.residuals[i]!)
  for (const [k, j] of free.entries()) addTimes(tried, slopes[j]!, ((-2 / probePart) * step[k]!) / shape[j]!)
  const gradient = free.map((j) => dot(slopes[j]!, tried) / shape[j]!)
  const pull = Float64Array.from(parts.right, (v) => v.reduce((sum, x, k) => sum + x * gradient[k]!, 0))
  const turn = dampedStep(parts, pull, damping)
  if (lengthOf(turn) > longestBend * lengthOf(step)) return
  for (let k = 0; k < step.length; k++) step[k]! += 0.5 * turn[k]!
}

function addTimes(to: Float64Array, column: Float64Array, factor: number): void {
  for (let i = 0; i < to.length; i++) to[i]! += column[i]! * factor
}
