import { dampedStep, dampingFor, fullStep, type Linear, linearise, promisedFall } from './linear-step.ts'
import type { SlopeCare } from './slopes.ts'

/** Residuals to be made small in the sense of least squares, over variables that may have bounds. */
export interface ResidualProblem {
  readonly count: number
  /** Writes the residuals; false where the model has no finite value there. */
  readonly residuals: (variables: Float64Array, into: Float64Array) => boolean
  /** Writes d residual / d variable, a column for each variable. */
  readonly slopes: (variables: Float64Array, into: readonly Float64Array[], care: SlopeCare) => void
  readonly low: Float64Array
  readonly high: Float64Array
}

export interface TrustOptions {
  readonly mostSteps: number
  /** Steps are done where none moves a variable by more than this part of its size. */
  readonly tolerance: number
  /** First radius, in units of the size of the start. */
  readonly firstRadius: number
  /** Told of each step taken; false stops the search. */
  readonly onStep?: (step: { readonly step: number; readonly squares: number }) => boolean
}

export const trustDefaults = { mostSteps: 1000, tolerance: 1e-10, firstRadius: 1 } as const satisfies TrustOptions

export interface TrustResult {
  readonly variables: Float64Array
  readonly residuals: Float64Array
  /** Sum of squared residuals. */
  readonly squares: number
  readonly steps: number
  readonly ended: 'settled' | 'stopped' | 'too many steps'
  /** Slopes at the end, of every variable, also of one that stands at a bound. */
  readonly slopes: readonly Float64Array[]
  /** Variables that stand at a bound and would go beyond it. */
  readonly atBound: readonly boolean[]
}

/** One state of the search: where it stands and what the linear model there is. */
interface Place {
  readonly at: Float64Array
  readonly residuals: Float64Array
  squares: number
}

/**
 * Nonlinear least squares with bounds: a trust region whose shape follows the slopes of the variables, each step from
 * the singular values of the orthogonal triangle, so that nothing is ever squared. Variables that stand at a bound and
 * would go beyond it rest there.
 *
 * @see J. Moré, The Levenberg-Marquardt algorithm: implementation and theory, Lecture Notes in Math. 630 (1978) 105-116
 * @see A. Conn, N. Gould, P. Toint, Trust-Region Methods (2000), chapter 12 (bounds by projection)
 */
export function trustRegion(
  problem: ResidualProblem,
  start: Float64Array,
  options: Partial<TrustOptions> = {},
): TrustResult | undefined {
  const o = { ...trustDefaults, ...options }
  const n = start.length
  const now: Place = { at: start.slice(), residuals: new Float64Array(problem.count), squares: 0 }
  if (!problem.residuals(now.at, now.residuals)) return undefined
  now.squares = squaresOf(now.residuals)
  const slopes = Array.from({ length: n }, () => new Float64Array(problem.count))
  const shape = new Float64Array(n)
  let radius = 0
  let ended: TrustResult['ended'] = 'too many steps'
  let steps = 0
  let settled = 0
  while (steps < o.mostSteps) {
    steps++
    problem.slopes(now.at, slopes, 'quick')
    for (let j = 0; j < n; j++) shape[j] = Math.max(shape[j]!, lengthOf(slopes[j]!)) || 1
    if (radius === 0) radius = o.firstRadius * (scaledLength(now.at, shape) || 1)
    const free = freeVariables(problem, now, slopes)
    if (free.length === 0) {
      ended = 'settled'
      break
    }
    const linear = linearise(slopes, now.residuals, free, shape)
    const moved = stepWithin(problem, now, slopes, linear, free, shape, radius)
    radius = moved.radius
    if (o.onStep?.({ step: steps, squares: now.squares }) === false) {
      ended = 'stopped'
      break
    }
    settled = moved.kind === 'nowhere' || moved.largest <= o.tolerance ? settled + 1 : 0
    if (moved.kind === 'nowhere' || settled >= 2) {
      ended = 'settled'
      break
    }
  }
  if (ended === 'settled') polish(problem, now, slopes, shape)
  problem.slopes(now.at, slopes, 'fine')
  const free = new Set(freeVariables(problem, now, slopes))
  return {
    variables: now.at,
    residuals: now.residuals,
    squares: now.squares,
    steps,
    ended,
    slopes,
    atBound: Array.from({ length: n }, (_, j) => !free.has(j)),
  }
}

export const squaresOf = (r: Float64Array): number => {
  let sum = 0
  for (let i = 0; i < r.length; i++) sum += r[i]! * r[i]!
  return sum
}

const lengthOf = (r: Float64Array): number => Math.sqrt(squaresOf(r))

function scaledLength(v: Float64Array, shape: Float64Array): number {
  let sum = 0
  for (let j = 0; j < v.length; j++) sum += (v[j]! * shape[j]!) ** 2
  return Math.sqrt(sum)
}

/** All variables but those at a bound that the slope drives outward. */
function freeVariables(problem: ResidualProblem, now: Place, slopes: readonly Float64Array[]): number[] {
  const free: number[] = []
  for (const [j, column] of slopes.entries()) {
    let downhill = 0
    for (let i = 0; i < column.length; i++) downhill -= column[i]! * now.residuals[i]!
    const rests = (now.at[j]! <= problem.low[j]! && downhill <= 0) || (now.at[j]! >= problem.high[j]! && downhill >= 0)
    if (!rests) free.push(j)
  }
  return free
}

/** Part of a step at which the curvature along it is probed. */
const probePart = 0.1

/** A bend longer than this part of the step says that the step is too long for it. */
const longestBend = 0.3

/**
 * Bends a step along the curvature of the residuals in its direction, so that it follows narrow curved valleys.
 *
 * @see M. Transtrum, J. Sethna, Improvements to the Levenberg-Marquardt algorithm for nonlinear least-squares
 *   minimization, arXiv:1201.5885 (2012)
 */
function bend(
  problem: ResidualProblem,
  now: Place,
  slopes: readonly Float64Array[],
  step: Float64Array,
  damping: number,
  { parts }: Linear,
  free: readonly number[],
  shape: Float64Array,
): void {
  if (step.every((s, k) => Math.abs(s / shape[free[k]!]!) <= 1e-5 * Math.abs(now.at[free[k]!]!))) return
  const probe = now.at.slice()
  for (const [k, j] of free.entries()) probe[j]! += (probePart * step[k]!) / shape[j]!
  const curved = new Float64Array(problem.count)
  if (!problem.residuals(probe, curved)) return
  for (let i = 0; i < curved.length; i++) {
    let along = 0
    for (const [k, j] of free.entries()) along += (slopes[j]![i]! * step[k]!) / shape[j]!
    curved[i] = (2 / probePart) * ((curved[i]! - now.residuals[i]!) / probePart - along)
  }
  const gradient = free.map((j) => slopes[j]!.reduce((s, c, i) => s + c * curved[i]!, 0) / shape[j]!)
  const pull = Float64Array.from(parts.right, (v) => v.reduce((s, x, k) => s + x * gradient[k]!, 0))
  const turn = dampedStep(parts, pull, damping)
  if (lengthOf(turn) > longestBend * lengthOf(step)) return
  for (let k = 0; k < step.length; k++) step[k]! += 0.5 * turn[k]!
}

type Moved =
  | { readonly kind: 'moved'; readonly largest: number; readonly radius: number }
  | { readonly kind: 'nowhere'; readonly largest: number; readonly radius: number }

/** Tries smaller and smaller regions until the squares fall, and goes there. */
function stepWithin(
  problem: ResidualProblem,
  now: Place,
  slopes: readonly Float64Array[],
  linear: Linear,
  free: readonly number[],
  shape: Float64Array,
  firstRadius: number,
): Moved {
  let radius = firstRadius
  const trial = now.at.slice()
  const residuals = new Float64Array(problem.count)
  for (let tries = 0; tries < 60; tries++) {
    const damping = dampingFor(linear, radius)
    const step = dampedStep(linear.parts, linear.pull, damping)
    bend(problem, now, slopes, step, damping, linear, free, shape)
    const largest = put(trial, now, step, free, shape, problem)
    if (largest === 0) return { kind: 'nowhere', largest, radius }
    const taken = Float64Array.from(free, (j) => (trial[j]! - now.at[j]!) * shape[j]!)
    const length = lengthOf(taken)
    const promised = promisedFall(linear, taken)
    const hasValue = problem.residuals(trial, residuals)
    const squares = hasValue ? squaresOf(residuals) : Number.POSITIVE_INFINITY
    const fall = now.squares - squares
    const ratio = promised > 0 ? fall / promised : fall >= 0 ? 1 : -1
    if (ratio < 0.25) radius = Math.min(radius, length) * (squares === Number.POSITIVE_INFINITY ? 0.1 : 0.25)
    else if (ratio > 0.75) radius = Math.max(radius, 2 * length)
    if (fall >= 0 && ratio > 1e-4) {
      now.at.set(trial)
      now.residuals.set(residuals)
      now.squares = squares
      return { kind: 'moved', largest, radius }
    }
    if (largest < 1e-15 || (hasValue && promised <= 1e-15 * now.squares && largest < 1e-6))
      return { kind: 'nowhere', largest, radius }
  }
  return { kind: 'nowhere', largest: 0, radius }
}

/** Writes the end of a step, kept inside the bounds; returns the largest move, as a part of the variable's size. */
function put(
  trial: Float64Array,
  now: Place,
  step: Float64Array,
  free: readonly number[],
  shape: Float64Array,
  problem: ResidualProblem,
): number {
  let largest = 0
  trial.set(now.at)
  for (const [k, j] of free.entries()) {
    const from = now.at[j]!
    const to = Math.min(problem.high[j]!, Math.max(problem.low[j]!, from + step[k]! / shape[j]!))
    trial[j] = to
    if (to !== from) largest = Math.max(largest, Math.abs(to - from) / (Math.abs(from) || Math.abs(to)))
  }
  return largest
}

/** Full steps with fine slopes at the end, as long as they grow smaller and the squares stand, to the last digits. */
function polish(problem: ResidualProblem, now: Place, slopes: readonly Float64Array[], shape: Float64Array): void {
  const trial = now.at.slice()
  const residuals = new Float64Array(problem.count)
  let before = Number.POSITIVE_INFINITY
  for (let i = 0; i < 30; i++) {
    problem.slopes(now.at, slopes, 'fine')
    const free = freeVariables(problem, now, slopes)
    if (free.length === 0) return
    const step = fullStep(linearise(slopes, now.residuals, free, shape))
    const largest = put(trial, now, step, free, shape, problem)
    if (largest === 0 || largest >= before * 0.9 || largest > 1e-3) return
    if (!problem.residuals(trial, residuals)) return
    const squares = squaresOf(residuals)
    if (squares > now.squares * (1 + 1e-9)) return
    now.at.set(trial)
    now.residuals.set(residuals)
    now.squares = squares
    before = largest
  }
}
