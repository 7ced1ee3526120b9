import { type SingularValues, singularValues, triangulatePlain } from './triangle-plain.ts'

/** The linear model at a place, in scaled variables. */
export interface Linear {
  readonly parts: SingularValues
  /** U^T r times the singular values. */
  readonly pull: Float64Array
}

/** Columns and a right side to work in, as long as the observations. */
export interface Room {
  readonly columns: readonly Float64Array[]
  readonly right: Float64Array
}

export const roomFor = (columns: number, rows: number): Room => ({
  columns: Array.from({ length: columns }, () => new Float64Array(rows)),
  right: new Float64Array(rows),
})

/** Linear model in the free variables, each measured in units of `shape`. */
export function linearise(
  slopes: readonly Float64Array[],
  residuals: Float64Array,
  free: readonly number[],
  shape: ArrayLike<number>,
  room: Room,
): Linear {
  const { right } = room
  right.set(residuals)
  const parts = partsOf(slopes, free, shape, room)
  const n = free.length
  const rows = Math.min(n, residuals.length)
  const pull = new Float64Array(n)
  for (let k = 0; k < n; k++) for (let i = 0; i < rows; i++) pull[k]! += parts.left[k]![i]! * right[i]!
  return { parts, pull }
}

/**
 * Singular values of some of the slopes, each measured in units of `shape`: those of their triangle. Units are taken
 * out of the triangle, which is smaller.
 *
 * @param room its right side is turned along with the slopes
 */
export function partsOf(
  slopes: readonly Float64Array[],
  used: readonly number[],
  shape: ArrayLike<number>,
  { columns: all, right }: Room,
): SingularValues {
  const columns = all.slice(0, used.length)
  for (const [k, c] of columns.entries()) c.set(slopes[used[k]!]!)
  triangulatePlain(columns, right)
  const triangle = columns.map((c, k) => {
    const top = new Float64Array(columns.length)
    const unit = shape[used[k]!]!
    for (let i = 0; i <= k && i < right.length; i++) top[i] = c[i]! / unit
    return top
  })
  return singularValues(triangle)
}

/** A singular value below this part of the largest says nothing but rounding. */
const leastSingular = 1e-14

/** Step -(A^T A + lambda)^-1 A^T r in scaled variables. */
export function dampedStep(parts: SingularValues, pull: Float64Array, lambda: number): Float64Array {
  const n = pull.length
  const step = new Float64Array(n)
  const most = parts.values.reduce((a, b) => Math.max(a, b), 0)
  for (let k = 0; k < n; k++) {
    const s = parts.values[k]!
    if (s <= leastSingular * most) continue
    const weight = -pull[k]! / (s * s + lambda)
    for (let j = 0; j < n; j++) step[j]! += weight * parts.right[k]![j]!
  }
  return step
}

export const fullStep = ({ parts, pull }: Linear): Float64Array => dampedStep(parts, pull, 0)

/** The damping that keeps the step within the radius, by Newton's iteration on the reciprocal length. */
export function dampingFor(linear: Linear, radius: number): number {
  const { parts, pull } = linear
  const most = parts.values.reduce((a, b) => Math.max(a, b), 0)
  const used = [...pull.keys()].filter((k) => parts.values[k]! > leastSingular * most)
  const lengths = (lambda: number): readonly [length: number, slope: number] => {
    let square = 0
    let cube = 0
    for (const k of used) {
      const w = parts.values[k]! ** 2 + lambda
      const q = pull[k]! / w
      square += q * q
      cube += (q * q) / w
    }
    return [Math.sqrt(square), -cube / Math.sqrt(square)]
  }
  let lambda = 0
  for (let i = 0; i < 60; i++) {
    const [length, slope] = lengths(lambda)
    if (length <= radius * 1.05 && (lambda === 0 || length >= radius * 0.95)) break
    lambda = Math.max(lambda + ((length / radius) * (radius - length)) / slope, lambda * 1e-3)
    if (!(lambda > 0)) break
  }
  return Math.max(lambda, 0)
}

/** Fall of the squares that the linear model promises for the best step there is. */
export function reachableFall({ parts, pull }: Linear): number {
  const least = leastSingular * parts.values.reduce((a, b) => Math.max(a, b), 0)
  return pull.reduce((fall, p, k) => (parts.values[k]! > least ? fall + (p / parts.values[k]!) ** 2 : fall), 0)
}

/** Fall of the squares that the linear model promises for a step. */
export function promisedFall({ parts, pull }: Linear, taken: Float64Array): number {
  let fall = 0
  for (let k = 0; k < pull.length; k++) {
    let along = 0
    for (let j = 0; j < taken.length; j++) along += parts.right[k]![j]! * taken[j]!
    fall -= 2 * pull[k]! * along + (parts.values[k]! * along) ** 2
  }
  return fall
}
