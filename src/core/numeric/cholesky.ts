import { FaultError } from '#core/fault'

/**
 * Lower triangle L with L L^T equal to a symmetric matrix that has no negative direction. A direction without spread
 * (causes correlated by exactly 1) is allowed and gives a column of zeros.
 *
 * @param matrix rows of a symmetric matrix, as covariances or correlations
 * @returns rows of L
 * @throws {FaultError} `out-of-domain` where the matrix cannot be one of covariances
 */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length
  const lower = matrix.map(() => new Array<number>(n).fill(0))
  const largest = Math.max(...matrix.map((row, i) => Math.abs(row[i]!)))
  for (let j = 0; j < n; j++) {
    let pivot = matrix[j]![j]!
    for (let k = 0; k < j; k++) pivot -= lower[j]![k]! ** 2
    if (!(pivot >= -negligible * largest)) throw notCovariance(pivot)
    const root = pivot <= negligible * largest ? 0 : Math.sqrt(pivot)
    lower[j]![j] = root
    for (let i = j + 1; i < n; i++) {
      let rest = matrix[i]![j]!
      for (let k = 0; k < j; k++) rest -= lower[i]![k]! * lower[j]![k]!
      if (root === 0 && Math.abs(rest) > Math.sqrt(negligible) * largest) throw notCovariance(rest)
      lower[i]![j] = root === 0 ? 0 : rest / root
    }
  }
  return lower
}

/** Rounding of a double in a matrix of a few dozen rows. */
const negligible = 1e-13

const notCovariance = (value: number): FaultError =>
  new FaultError({
    code: 'out-of-domain',
    name: 'matrix of correlations',
    value,
    allowed:
      'one that readings taken together can have: no combination of causes may come out with a negative variance',
  })
