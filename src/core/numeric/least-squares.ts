import { FaultError } from '#core/fault'
import { Extended } from './extended.ts'
import { covarianceOf, type ExtendedColumn, solveUpper, triangulate } from './triangle.ts'

/** Parameters fitted by least squares, with what is known about them. */
export interface LinearFit {
  readonly coefficients: readonly number[]
  /** Standard uncertainty of each coefficient; NaN where there are neither degrees of freedom nor `sigma`. */
  readonly sd: readonly number[]
  readonly covariance: readonly (readonly number[])[]
  /** y less its fitted value, in the unit of y. */
  readonly residuals: readonly number[]
  /** Sum of the squared residuals; where `sigma` was given, of the residuals divided by it (chi-square). */
  readonly rss: number
  readonly dof: number
  /** Standard deviation of one y about the fit; NaN without degrees of freedom. */
  readonly residualSd: number
  /** Share of the spread of y that the fit explains: about the mean where a column is constant, else about zero. */
  readonly rSquared: number
}

export interface FitOptions {
  /** Known standard uncertainty of each y. With it, the covariance follows from it and not from the residuals. */
  readonly sigma?: ArrayLike<number>
}

/** A column counts as a combination of those before it where less than this part of it is new. */
const newPart = { double: 3e-16, extended: 1e-26 }

/**
 * Least squares by Householder's orthogonal triangles, carried out in extended precision, so that the answer has the
 * digits the data allow even where columns are nearly dependent.
 *
 * @param columns one array for each coefficient, all as long as y
 * @param y observations
 * @throws {FaultError} `out-of-domain` where lengths differ, there are fewer observations than coefficients, a number
 *   is not finite, or a column is a combination of the others
 * @see G. Golub, Numerical methods for solving linear least squares problems, Numer. Math. 7 (1965) 206-216
 * @example leastSquares([[1, 1, 1], [0, 1, 2]], [1, 3, 5]).coefficients // [1, 2]
 */
export const leastSquares = (
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
  options: FitOptions = {},
): LinearFit =>
  fitColumns(
    columns.map((c) => ({ hi: Float64Array.from(c), lo: new Float64Array(c.length) })),
    y,
    options,
    newPart.double,
  )

/**
 * Polynomial c0 + c1 x + ... by least squares; the powers of x are made in extended precision, so that raw powers lose
 * nothing.
 */
export function fitPolynomial(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  degree: number,
  options: FitOptions = {},
): LinearFit {
  const columns: ExtendedColumn[] = []
  for (let k = 0; k <= degree; k++) columns.push({ hi: new Float64Array(x.length), lo: new Float64Array(x.length) })
  const power = new Extended()
  for (let i = 0; i < x.length; i++) {
    power.set(1)
    for (const c of columns) {
      c.hi[i] = power.hi
      c.lo[i] = power.lo
      power.times(x[i]!)
    }
  }
  return fitColumns(columns, y, options, newPart.extended)
}

function fitColumns(
  columns: readonly ExtendedColumn[],
  y: ArrayLike<number>,
  options: FitOptions,
  smallest: number,
): LinearFit {
  const rows = y.length
  const count = columns.length
  checkShape(columns, y, options.sigma)
  const work = columns.map((c) => weighted(c, options.sigma))
  const right = weighted({ hi: Float64Array.from(y), lo: new Float64Array(rows) }, options.sigma)
  const diagonal = triangulate(work, right, smallest)
  const coefficients = solveUpper(work, diagonal, right)
  const rss = new Extended()
  for (let i = count; i < rows; i++) rss.addProduct(right.hi[i]!, right.lo[i]!, right.hi[i]!, right.lo[i]!)
  const dof = rows - count
  const variance = options.sigma === undefined ? rss.value / dof : 1
  const covariance = covarianceOf(work, diagonal, variance)
  return {
    coefficients: coefficients.map((c) => c.value),
    sd: covariance.map((row, i) => Math.sqrt(row[i]!)),
    covariance,
    residuals: residualsOf(columns, y, coefficients),
    rss: rss.value,
    dof,
    residualSd: Math.sqrt(rss.value / dof),
    rSquared: explained(rss.value, spreadOf(columns, y, options.sigma)),
  }
}

function checkShape(columns: readonly ExtendedColumn[], y: ArrayLike<number>, sigma?: ArrayLike<number>): void {
  const refuse = (name: string, value: number | string, allowed: string): never => {
    throw new FaultError({ code: 'out-of-domain', name, value, allowed })
  }
  if (columns.length === 0) refuse('count of coefficients', 0, 'at least 1')
  if (y.length < columns.length) refuse('count of observations', y.length, `at least ${columns.length}`)
  for (const c of columns) if (c.hi.length !== y.length) refuse('length of a column', c.hi.length, `${y.length}`)
  if (sigma !== undefined && sigma.length !== y.length) refuse('length of sigma', sigma.length, `${y.length}`)
  for (let i = 0; i < y.length; i++) {
    if (!Number.isFinite(y[i])) refuse('observation', y[i]!, 'a finite number')
    for (const c of columns) if (!Number.isFinite(c.hi[i])) refuse('entry of a column', c.hi[i]!, 'a finite number')
    if (sigma !== undefined && !(sigma[i]! > 0 && Number.isFinite(sigma[i]))) refuse('sigma', sigma[i]!, 'above 0')
  }
}

/** A copy of a column, each row divided by the uncertainty of its observation. */
function weighted(c: ExtendedColumn, sigma?: ArrayLike<number>): ExtendedColumn {
  const copy = { hi: c.hi.slice(), lo: c.lo.slice() }
  if (sigma === undefined) return copy
  const q = new Extended()
  for (let i = 0; i < copy.hi.length; i++) {
    q.set(copy.hi[i]!, copy.lo[i]!).over(sigma[i]!)
    copy.hi[i] = q.hi
    copy.lo[i] = q.lo
  }
  return copy
}

function residualsOf(columns: readonly ExtendedColumn[], y: ArrayLike<number>, solved: readonly Extended[]): number[] {
  const r = new Extended()
  return Array.from({ length: y.length }, (_, i) => {
    r.set(y[i]!)
    for (const [j, c] of columns.entries()) r.addProduct(-c.hi[i]!, -c.lo[i]!, solved[j]!.hi, solved[j]!.lo)
    return r.value
  })
}

const explained = (rss: number, spread: number): number => (spread === 0 ? (rss === 0 ? 1 : 0) : 1 - rss / spread)

/** Sum of squares of y, about its weighted mean where the model has a constant. */
function spreadOf(columns: readonly ExtendedColumn[], y: ArrayLike<number>, sigma?: ArrayLike<number>): number {
  const weight = (i: number): number => (sigma === undefined ? 1 : 1 / sigma[i]! ** 2)
  const hasConstant = columns.some((c) => c.hi[0] !== 0 && c.hi.every((v) => v === c.hi[0]))
  const mean = new Extended()
  let total = 0
  for (let i = 0; hasConstant && i < y.length; i++) {
    mean.addProduct(weight(i), 0, y[i]!, 0)
    total += weight(i)
  }
  if (hasConstant) mean.over(total)
  const sum = new Extended()
  const d = new Extended()
  for (let i = 0; i < y.length; i++) {
    d.set(y[i]!).add(-mean.hi, -mean.lo)
    const w = weight(i)
    const hi = d.hi * w
    sum.addProduct(hi, d.lo * w, d.hi, d.lo)
  }
  return sum.value
}
