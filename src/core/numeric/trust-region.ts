import { bend } from './bent-step.ts'
import { dampedStep, dampingFor, fullStep, linearise, promisedFall, type Room, reachableFall } from './linear-step.ts'
import { dot, lengthOf, type Search, searchFrom, squaresOf } from './search.ts'
import type { SlopeCare } from './slopes.ts'
import type { SingularValues } from './triangle-plain.ts'

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
  /**
   * Steps are also done where the best there is to be had would move the variables by less than this part of their
   * standard error; 0 asks for all digits.
   *
   * @see D. Bates, D. Watts, A relative offset orthogonality convergence criterion for nonlinear least squares,
   *   Technometrics 23 (1981) 179-183
   */
  readonly offset: number
  /** First radius, in units of the size of the start. */
  readonly firstRadius: number
  /** Told of each step taken; false stops the search. */
  readonly onStep?: (step: { readonly step: number; readonly squares: number }) => boolean
}

export const trustDefaults = {
  mostSteps: 1000,
  tolerance: 1e-10,
  offset: 0,
  firstRadius: 1,
} as const satisfies TrustOptions

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
  /** The linear model where it ended, if it was made there. */
  readonly linear?: { readonly parts: SingularValues; readonly free: readonly number[]; readonly shape: Float64Array }
  /** Where it worked, free to be used again. */
  readonly room: Room
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
  const s = searchFrom(problem, start)
  if (s === undefined) return undefined
  const { ended, steps, hasSlopes } = walk(s, o)
  if (ended === 'settled' && o.offset === 0) polish(s)
  if (!hasSlopes) problem.slopes(s.at, s.slopes, 'fine')
  const linear = hasSlopes ? { linear: { parts: s.linear.parts, free: s.free, shape: s.shape } } : {}
  if (!hasSlopes) release(s)
  const free = new Set(s.free)
  return {
    variables: s.at,
    residuals: s.residuals,
    squares: s.squares,
    steps,
    ended,
    slopes: s.slopes,
    ...linear,
    room: s.room,
    atBound: Array.from({ length: start.length }, (_, j) => !free.has(j)),
  }
}

interface Walk {
  readonly ended: TrustResult['ended']
  readonly steps: number
  /** Whether the slopes are those of where the search stands. */
  readonly hasSlopes: boolean
}

/** Steps until they are done. */
function walk(s: Search, o: TrustOptions): Walk {
  const { problem, at, slopes, shape } = s
  let radius = 0
  let settled = 0
  for (let steps = 1; steps <= o.mostSteps; steps++) {
    problem.slopes(at, slopes, 'quick')
    for (let j = 0; j < at.length; j++) shape[j] = Math.max(shape[j]!, lengthOf(slopes[j]!)) || 1
    if (radius === 0) radius = o.firstRadius * (scaledLength(at, shape) || 1)
    release(s)
    if (s.free.length === 0) return { ended: 'settled', steps, hasSlopes: false }
    s.linear = linearise(slopes, s.residuals, s.free, shape, s.room)
    s.offset = relativeOffset(s)
    if (s.offset < o.offset) return { ended: 'settled', steps, hasSlopes: true }
    const moved = stepWithin(s, radius)
    radius = moved.radius
    if (o.onStep?.({ step: steps, squares: s.squares }) === false) return { ended: 'stopped', steps, hasSlopes: false }
    settled = moved.kind === 'nowhere' || moved.largest <= o.tolerance ? settled + 1 : 0
    if (moved.kind === 'nowhere' || settled >= 2) return { ended: 'settled', steps, hasSlopes: false }
  }
  return { ended: 'too many steps', steps: o.mostSteps, hasSlopes: false }
}

/** How far the best step of the linear model would go, in standard errors. */
function relativeOffset({ linear, squares, residuals }: Search): number {
  const n = linear.pull.length
  const rest = squares / Math.max(1, residuals.length - n)
  return Math.sqrt(reachableFall(linear) / n / rest)
}

function scaledLength(v: Float64Array, shape: Float64Array): number {
  let sum = 0
  for (let j = 0; j < v.length; j++) sum += (v[j]! * shape[j]!) ** 2
  return Math.sqrt(sum)
}

/** Sets free all variables but those at a bound that the slope drives outward. */
function release(s: Search): void {
  const { low, high } = s.problem
  s.free = []
  for (let j = 0; j < s.at.length; j++) {
    const downhill = -dot(s.slopes[j]!, s.residuals)
    const rests = (s.at[j]! <= low[j]! && downhill <= 0) || (s.at[j]! >= high[j]! && downhill >= 0)
    if (!rests) s.free.push(j)
  }
}

interface Moved {
  readonly kind: 'moved' | 'nowhere'
  readonly largest: number
  readonly radius: number
}

/** Tries smaller and smaller regions until the squares fall, and goes there. */
function stepWithin(s: Search, firstRadius: number): Moved {
  const { problem, linear, free, shape, trial, tried } = s
  let radius = firstRadius
  for (let tries = 0; tries < 60; tries++) {
    const damping = dampingFor(linear, radius)
    const step = dampedStep(linear.parts, linear.pull, damping)
    bend(s, step, damping)
    const largest = put(s, step)
    if (largest === 0) return { kind: 'nowhere', largest, radius }
    for (const [k, j] of free.entries()) step[k] = (trial[j]! - s.at[j]!) * shape[j]!
    const length = lengthOf(step)
    const promised = promisedFall(linear, step)
    const hasValue = problem.residuals(trial, tried)
    const squares = hasValue ? squaresOf(tried) : Number.POSITIVE_INFINITY
    const fall = s.squares - squares
    const ratio = promised > 0 ? fall / promised : fall >= 0 ? 1 : -1
    if (ratio < 0.25) radius = Math.min(radius, length) * (squares === Number.POSITIVE_INFINITY ? 0.1 : 0.25)
    else if (ratio > 0.75) radius = Math.max(radius, 2 * length)
    if (fall >= 0 && ratio > 1e-4) {
      go(s, squares)
      s.ratio = ratio
      return { kind: 'moved', largest, radius }
    }
    if (largest < 1e-15 || (hasValue && promised <= 1e-15 * s.squares && largest < 1e-6))
      return { kind: 'nowhere', largest, radius }
  }
  return { kind: 'nowhere', largest: 0, radius }
}

/** Goes to the trial. */
function go(s: Search, squares: number): void {
  s.at.set(s.trial)
  s.residuals.set(s.tried)
  s.squares = squares
}

/** Writes the end of a step, kept inside the bounds; returns the largest move, as a part of the variable's size. */
function put({ at, trial, free, shape, problem }: Search, step: Float64Array): number {
  let largest = 0
  trial.set(at)
  for (const [k, j] of free.entries()) {
    const from = at[j]!
    const to = Math.min(problem.high[j]!, Math.max(problem.low[j]!, from + step[k]! / shape[j]!))
    trial[j] = to
    if (to !== from) largest = Math.max(largest, Math.abs(to - from) / (Math.abs(from) || Math.abs(to)))
  }
  return largest
}

/** Full steps with fine slopes at the end, until they twice grow no smaller or the squares rise, to the last digits. */
function polish(s: Search): void {
  const { problem } = s
  let before = Number.POSITIVE_INFINITY
  let misses = 0
  for (let i = 0; i < 30; i++) {
    problem.slopes(s.at, s.slopes, 'fine')
    release(s)
    if (s.free.length === 0) return
    const largest = put(s, fullStep(linearise(s.slopes, s.residuals, s.free, s.shape, s.room)))
    if (largest >= before * 0.9) misses++
    if (largest === 0 || misses === 2 || largest > 1e-3) return
    if (!problem.residuals(s.trial, s.tried)) return
    const squares = squaresOf(s.tried)
    if (squares > s.squares * (1 + 1e-9)) return
    go(s, squares)
    before = Math.min(before, largest)
  }
}
