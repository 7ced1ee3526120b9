/**
 * Factors the leading n x n part of a matrix in place into lower and upper triangle, with row exchanges.
 *
 * @param a rows one after another, `stride` numbers apart
 * @param order filled with the row taken at each step
 * @returns -1 where it went well, else the column without a pivot
 */
export function factor(a: Float64Array, n: number, stride: number, order: Int32Array): number {
  for (let k = 0; k < n; k++) {
    let best = Math.abs(a[k * stride + k]!)
    let row = k
    for (let i = k + 1; i < n; i++) {
      const size = Math.abs(a[i * stride + k]!)
      if (size > best) {
        best = size
        row = i
      }
    }
    order[k] = row
    if (!(best > 1e-300)) return k
    if (row !== k) swapRows(a, n, k * stride, row * stride)
    const top = k * stride
    const pivot = 1 / a[top + k]!
    for (let i = k + 1; i < n; i++) {
      const here = i * stride
      const m = a[here + k]! * pivot
      if (m === 0) continue
      a[here + k] = m
      for (let j = k + 1; j < n; j++) a[here + j] = a[here + j]! - m * a[top + j]!
    }
  }
  return -1
}

function swapRows(a: Float64Array, n: number, one: number, other: number): void {
  for (let j = 0; j < n; j++) {
    const kept = a[one + j]!
    a[one + j] = a[other + j]!
    a[other + j] = kept
  }
}

/** Solves A x = b in place with the factors of A. */
export function solveFactored(a: Float64Array, n: number, stride: number, order: Int32Array, b: Float64Array): void {
  for (let k = 0; k < n; k++) {
    const row = order[k]!
    if (row === k) continue
    const kept = b[k]!
    b[k] = b[row]!
    b[row] = kept
  }
  for (let i = 1; i < n; i++) {
    let sum = b[i]!
    const here = i * stride
    for (let j = 0; j < i; j++) sum -= a[here + j]! * b[j]!
    b[i] = sum
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!
    const here = i * stride
    for (let j = i + 1; j < n; j++) sum -= a[here + j]! * b[j]!
    b[i] = sum / a[here + i]!
  }
}

/** Solves the transposed system, A' x = b, in place with the factors of A. */
export function solveTransposed(a: Float64Array, n: number, stride: number, order: Int32Array, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i]!
    for (let j = 0; j < i; j++) sum -= a[j * stride + i]! * b[j]!
    b[i] = sum / a[i * stride + i]!
  }
  for (let i = n - 2; i >= 0; i--) {
    let sum = b[i]!
    for (let j = i + 1; j < n; j++) sum -= a[j * stride + i]! * b[j]!
    b[i] = sum
  }
  for (let k = n - 1; k >= 0; k--) {
    const row = order[k]!
    if (row === k) continue
    const kept = b[k]!
    b[k] = b[row]!
    b[row] = kept
  }
}
