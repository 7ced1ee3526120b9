import { FaultError } from '#core/fault'
import { Extended } from './extended.ts'

/** A column with its digits beyond a double, where it has them. */
export interface ExtendedColumn {
  readonly hi: Float64Array
  readonly lo: Float64Array
}

/** Sum of products of two columns from a row on. */
function dot(a: ExtendedColumn, b: ExtendedColumn, from: number, into: Extended): Extended {
  into.set(0)
  for (let i = from; i < a.hi.length; i++) into.addProduct(a.hi[i]!, a.lo[i]!, b.hi[i]!, b.lo[i]!)
  return into
}

/** Turns the columns into an upper triangle by reflections, the right side with them; returns its diagonal. */
export function triangulate(columns: readonly ExtendedColumn[], right: ExtendedColumn, smallest: number): Extended[] {
  const whole = columns.map((c) => Math.sqrt(dot(c, c, 0, new Extended()).value))
  const diagonal: Extended[] = []
  const product = new Extended()
  for (const [k, c] of columns.entries()) {
    const length = dot(c, c, k, new Extended()).squareRoot()
    if (!(length.value > smallest * whole[k]!))
      throw new FaultError({
        code: 'out-of-domain',
        name: `column ${k + 1} of the fit`,
        value: 'a combination of the columns before it',
        allowed: 'independent of them; take it out or add readings at other settings',
      })
    if (c.hi[k]! > 0) length.set(-length.hi, -length.lo)
    diagonal.push(length)
    const first = new Extended(c.hi[k]!, c.lo[k]!).add(-length.hi, -length.lo)
    c.hi[k] = first.hi
    c.lo[k] = first.lo
    // half the squared length of the mirror vector is -diagonal x its first entry
    const half = new Extended(-length.hi, -length.lo).times(first.hi, first.lo)
    for (const other of [...columns.slice(k + 1), right]) {
      dot(c, other, k, product).over(half.hi, half.lo)
      subtract(other, c, product, k)
    }
  }
  return diagonal
}

/** other -= factor * mirror, from row k on. */
function subtract(other: ExtendedColumn, mirror: ExtendedColumn, factor: Extended, k: number): void {
  const entry = new Extended()
  for (let i = k; i < other.hi.length; i++) {
    entry.set(other.hi[i]!, other.lo[i]!).addProduct(-factor.hi, -factor.lo, mirror.hi[i]!, mirror.lo[i]!)
    other.hi[i] = entry.hi
    other.lo[i] = entry.lo
  }
}

/** Back substitution; the triangle above the diagonal stands in the columns. */
export function solveUpper(
  columns: readonly ExtendedColumn[],
  diagonal: readonly Extended[],
  right: ExtendedColumn,
): Extended[] {
  const solved = diagonal.map(() => new Extended())
  for (let i = diagonal.length - 1; i >= 0; i--) {
    const s = solved[i]!.set(right.hi[i]!, right.lo[i]!)
    for (let j = i + 1; j < diagonal.length; j++)
      s.addProduct(-columns[j]!.hi[i]!, -columns[j]!.lo[i]!, solved[j]!.hi, solved[j]!.lo)
    s.over(diagonal[i]!.hi, diagonal[i]!.lo)
  }
  return solved
}

/** variance x (R^T R)^-1, from the inverse of the triangle. */
export function covarianceOf(
  columns: readonly ExtendedColumn[],
  diagonal: readonly Extended[],
  variance: number,
): number[][] {
  const n = diagonal.length
  const inverse = diagonal.map((_, j) => {
    const unit = { hi: new Float64Array(n), lo: new Float64Array(n) }
    unit.hi[j] = 1
    return solveUpper(columns, diagonal, unit)
  })
  const sum = new Extended()
  return diagonal.map((_, a) =>
    diagonal.map((_, b) => {
      sum.set(0)
      for (const column of inverse) sum.addProduct(column[a]!.hi, column[a]!.lo, column[b]!.hi, column[b]!.lo)
      return sum.value * variance
    }),
  )
}
