/**
 * Orthogonal triangles and singular values of small matrices in plain doubles, kept as columns so that loops allocate
 * nothing. Where every digit counts (linear regression), `triangle.ts` does the same in extended precision.
 */

/**
 * Turns the columns into an upper triangle by Householder's reflections, the right side with them. The triangle is left
 * in the first rows of the columns, its diagonal included.
 *
 * @see G. Golub, Numerical methods for solving linear least squares problems, Numer. Math. 7 (1965) 206-216
 */
export function triangulatePlain(columns: readonly Float64Array[], right: Float64Array): void {
  const rows = right.length
  for (const [k, c] of columns.entries()) {
    if (k >= rows) return
    let square = 0
    for (let i = k; i < rows; i++) square += c[i]! * c[i]!
    const length = c[k]! > 0 ? -Math.sqrt(square) : Math.sqrt(square)
    if (length === 0) continue
    c[k]! -= length
    const half = -length * c[k]!
    for (let j = k + 1; j < columns.length; j++) reflect(columns[j]!, c, half, k)
    reflect(right, c, half, k)
    c[k] = length
  }
}

function reflect(column: Float64Array, mirror: Float64Array, half: number, from: number): void {
  let dot = 0
  for (let i = from; i < column.length; i++) dot += mirror[i]! * column[i]!
  const factor = dot / half
  for (let i = from; i < column.length; i++) column[i]! -= factor * mirror[i]!
}

/** A = U diag(s) V^T: the columns of `left` are U diag(s), those of `right` are V. */
export interface SingularValues {
  readonly values: Float64Array
  readonly left: readonly Float64Array[]
  readonly right: readonly Float64Array[]
}

const mostSweeps = 40

/**
 * Singular values of a small square matrix, given as columns, by one-sided rotations; small ones keep their digits
 * where the columns are well scaled.
 *
 * @see J. Demmel, K. Veselic, Jacobi's method is more accurate than QR, SIAM J. Matrix Anal. Appl. 13 (1992) 1204-1245
 */
export function singularValues(columns: readonly Float64Array[]): SingularValues {
  const n = columns.length
  const left = columns.map((c) => c.slice())
  const right = columns.map((_, j) => {
    const unit = new Float64Array(n)
    unit[j] = 1
    return unit
  })
  for (let sweep = 0; sweep < mostSweeps; sweep++) {
    let isDone = true
    for (let p = 0; p < n - 1; p++)
      for (let q = p + 1; q < n; q++) if (rotate(left[p]!, left[q]!, right[p]!, right[q]!)) isDone = false
    if (isDone) break
  }
  return { values: Float64Array.from(left, (c) => Math.sqrt(c.reduce((s, x) => s + x * x, 0))), left, right }
}

/** Makes two columns orthogonal; false where they already are. */
function rotate(a: Float64Array, b: Float64Array, va: Float64Array, vb: Float64Array): boolean {
  let aa = 0
  let bb = 0
  let ab = 0
  for (let i = 0; i < a.length; i++) {
    aa += a[i]! * a[i]!
    bb += b[i]! * b[i]!
    ab += a[i]! * b[i]!
  }
  if (Math.abs(ab) <= 1e-15 * Math.sqrt(aa * bb) || ab === 0) return false
  const zeta = (bb - aa) / (2 * ab)
  const t = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta))
  const c = 1 / Math.sqrt(1 + t * t)
  turn(a, b, c, c * t)
  turn(va, vb, c, c * t)
  return true
}

function turn(a: Float64Array, b: Float64Array, c: number, s: number): void {
  for (let i = 0; i < a.length; i++) {
    const x = a[i]!
    a[i] = c * x - s * b[i]!
    b[i] = s * x + c * b[i]!
  }
}
