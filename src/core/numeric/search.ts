import { type Linear, type Room, roomFor } from './linear-step.ts'
import type { ResidualProblem } from './trust-region.ts'

/** A search as it stands. Its arrays are made once, so that steps make none as long as the observations. */
export interface Search {
  readonly problem: ResidualProblem
  readonly at: Float64Array
  readonly residuals: Float64Array
  squares: number
  readonly slopes: readonly Float64Array[]
  /** Longest slope of each variable so far: the unit it is measured in. */
  readonly shape: Float64Array
  /** Variables that do not rest at a bound. */
  free: number[]
  linear: Linear
  /** How far the best step of the linear model would go, in standard errors. */
  offset: number
  /** Fall of the squares in the last step, as a part of what the linear model had promised. */
  ratio: number
  /** Where the search looks next, and the residuals there. */
  readonly trial: Float64Array
  readonly tried: Float64Array
  readonly room: Room
}

/** A search at its start; undefined where the model has no finite value there. */
export function searchFrom(problem: ResidualProblem, start: Float64Array): Search | undefined {
  const n = start.length
  const residuals = new Float64Array(problem.count)
  if (!problem.residuals(start, residuals)) return undefined
  return {
    problem,
    at: start.slice(),
    residuals,
    squares: squaresOf(residuals),
    slopes: Array.from({ length: n }, () => new Float64Array(problem.count)),
    shape: new Float64Array(n),
    free: [],
    linear: { parts: { values: new Float64Array(), left: [], right: [] }, pull: new Float64Array() },
    offset: Number.POSITIVE_INFINITY,
    ratio: 0,
    trial: start.slice(),
    tried: new Float64Array(problem.count),
    room: roomFor(n, problem.count),
  }
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}

export const squaresOf = (r: Float64Array): number => dot(r, r)

export const lengthOf = (r: Float64Array): number => Math.sqrt(squaresOf(r))
