import { type Compiled, refresh } from './compile.ts'
import type { Instance } from './instance.ts'
import { width } from './instance.ts'
import { factor, solveFactored } from './lu.ts'
import { stamp } from './stamp.ts'

/** One way that was tried to reach an operating point, and how it went. */
export interface Attempt {
  readonly method: 'newton' | 'gmin stepping' | 'source stepping'
  readonly iterations: number
  readonly reached: boolean
  /** How far it came: the last conductance to the common node, S, or the last share of the sources. */
  readonly cameTo?: number
  /** Node or branch that still moved most, and by how much, V or A; left out where that is without bound. */
  readonly worst?: string
  readonly worstChange?: number
}

/** Whether an operating point was found; where not, all that was tried. */
export interface Outcome {
  readonly converged: boolean
  readonly iterations: number
  readonly attempts: readonly Attempt[]
}

export const solveDefaults = {
  /** Steps allowed from a given start. */
  mostIterations: 100,
  /** Change of a node at which a step counts as the last, V: the error left is of the order of its square over V_T. */
  settledV: 1e-7,
  /** Relative part of the same. */
  settledShare: 1e-9,
} as const

/** State of the last Newton run, kept out of the heap. */
const last = { iterations: 0, worstRow: -1, worstChange: 0 }

/**
 * Newton's method from the voltages that stand in `c.x`.
 *
 * @param shuntS conductance from every node to the common one, S
 * @param share of every source, 0 to 1
 */
function newton(c: Compiled, shuntS: number, share: number): boolean {
  const { mostIterations, settledV, settledShare } = solveDefaults
  for (let k = 1; k <= mostIterations; k++) {
    const isHeld = assemble(c, shuntS, share, false)
    last.iterations = k
    const bad = factor(c.matrix, c.n, c.n + 1, c.order)
    if (bad >= 0) {
      last.worstRow = bad
      last.worstChange = Number.POSITIVE_INFINITY
      return false
    }
    solveFactored(c.matrix, c.n, c.n + 1, c.order, c.step)
    let worst = -1
    last.worstRow = -1
    for (let i = 0; i < c.n; i++) {
      const change = Math.abs(c.step[i]!)
      c.x[i] = c.x[i]! + c.step[i]!
      const over = i < c.nodes ? change - settledV - settledShare * Math.abs(c.x[i]!) : -1
      if (!(over <= worst)) {
        worst = over
        last.worstRow = i
        last.worstChange = change
      }
    }
    if (Number.isNaN(worst)) return false
    if (worst <= 0 && !isHeld) return true
  }
  return false
}

/**
 * Matrix of slopes and, in `c.step`, the sum of currents at every node with its sign turned, at the voltages in `c.x`.
 *
 * @returns whether a junction was held back
 */
export function assemble(c: Compiled, shuntS: number, share: number, isFree: boolean): boolean {
  refresh(c)
  const { n, x, fixed, matrix, rhs, step } = c
  const s = n + 1
  matrix.set(fixed)
  for (let r = 0; r < n; r++) {
    let sum = share * rhs[r]!
    const here = r * s
    for (let k = 0; k < n; k++) sum -= fixed[here + k]! * x[k]!
    step[r] = sum
  }
  if (shuntS > 0)
    for (let r = 0; r < c.nodes; r++) {
      matrix[r * s + r]! += shuntS
      step[r]! -= shuntS * x[r]!
    }
  let isHeld = false
  for (const i of c.instances) {
    if (stamp(i, x, isFree)) isHeld = true
    scatter(i, matrix, step, s)
  }
  return isHeld
}

function scatter(i: Instance, matrix: Float64Array, step: Float64Array, s: number): void {
  const { at, f, j, size } = i
  for (let a = 0; a < size; a++) {
    const row = at[a]!
    step[row]! -= f[a]!
    for (let b = 0; b < size; b++) {
      const g = j[a * width + b]!
      if (g !== 0) matrix[row * s + at[b]!]! += g
    }
  }
}

const direct: Outcome = { converged: true, iterations: 0, attempts: [] }

/**
 * Finds the operating point: Newton from where `c.x` stands, then with conductances to the common node that fade away,
 * then with sources that grow.
 *
 * @returns what was tried; the point stands in `c.x`. For many points in a row see `settle`.
 */
export function solve(c: Compiled): Outcome {
  const attempts: Attempt[] = []
  let iterations = 0
  for (const method of ['newton', 'gmin stepping', 'source stepping'] as const) {
    if (method !== 'newton') reset(c)
    const attempt = tryOne(c, method)
    attempts.push(attempt)
    iterations += attempt.iterations
    if (attempt.reached) return { ...direct, iterations, attempts }
  }
  return { converged: false, iterations, attempts }
}

/** Newton alone from where `c.x` stands: for a variation of a point already found. Allocates nothing. */
export const settle = (c: Compiled): boolean => newton(c, 0, 1)

/** Steps that the last Newton run took. */
export const lastIterations = (): number => last.iterations

/** Forgets the last point. */
export function reset(c: Compiled): void {
  c.x.fill(0)
  for (const i of c.instances) i.junction.fill(0)
}

function tryOne(c: Compiled, method: Attempt['method']): Attempt {
  if (method === 'newton') return said(c, method, last, newton(c, 0, 1))
  const isGmin = method === 'gmin stepping'
  const walk = { iterations: 0, cameTo: isGmin ? 1 : 0 }
  const reached = isGmin ? fadeShunt(c, walk) : growSources(c, walk)
  return { ...said(c, method, walk, reached), cameTo: walk.cameTo }
}

function said(c: Compiled, method: Attempt['method'], count: { iterations: number }, reached: boolean): Attempt {
  const base = { method, iterations: count.iterations, reached }
  if (reached || last.worstRow < 0) return base
  const worst = { ...base, worst: c.rowNames[last.worstRow]! }
  return Number.isFinite(last.worstChange) ? { ...worst, worstChange: last.worstChange } : worst
}

interface Walk {
  iterations: number
  cameTo: number
}

/** Conductance to the common node from 1 S down to 1e-13 S and then none; smaller steps where one fails. */
function fadeShunt(c: Compiled, walk: Walk): boolean {
  const kept = Float64Array.from(c.x)
  let g = 1
  let ratio = 0.1
  for (let k = 0; k < 200; k++) {
    const ok = newton(c, g, 1)
    walk.iterations += last.iterations
    if (ok) {
      walk.cameTo = g
      kept.set(c.x)
      if (g === 0) return true
      ratio = Math.max(0.1, ratio ** 1.5)
      g = g * ratio < 1e-13 ? 0 : g * ratio
      continue
    }
    c.x.set(kept)
    if (walk.cameTo === 1 && g === 1) return false
    ratio = Math.sqrt(ratio)
    if (ratio > 0.97) return false
    g = walk.cameTo * ratio
  }
  return false
}

/** Sources from nothing to their whole value; smaller steps where one fails. */
function growSources(c: Compiled, walk: Walk): boolean {
  const kept = Float64Array.from(c.x)
  let grow = 0.1
  for (let k = 0; k < 400; k++) {
    const share = Math.min(1, walk.cameTo + grow)
    const ok = newton(c, 0, share)
    walk.iterations += last.iterations
    if (ok) {
      walk.cameTo = share
      kept.set(c.x)
      if (share === 1) return true
      grow = Math.min(0.3, grow * 1.6)
    } else {
      c.x.set(kept)
      grow /= 3
      if (grow < 1e-7) return false
    }
  }
  return false
}
