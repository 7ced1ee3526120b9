/**
 * Numbers of about 31 digits as an unevaluated sum of two doubles, for the few places where a double is not enough:
 * sums of squares, polynomial powers, least squares of nearly dependent columns.
 *
 * One object is one register, changed in place, so that loops allocate nothing.
 *
 * @see T. J. Dekker, A floating-point technique for extending the available precision, Numer. Math. 18 (1971) 224-242
 */
export class Extended {
  hi: number
  lo: number

  constructor(hi = 0, lo = 0) {
    this.hi = hi
    this.lo = lo
  }

  set(hi: number, lo = 0): this {
    this.hi = hi
    this.lo = lo
    return this
  }

  /** The nearest double. */
  get value(): number {
    return this.hi + this.lo
  }

  add(hi: number, lo = 0): this {
    const s = this.hi + hi
    const t = s - this.hi
    const e = this.hi - (s - t) + (hi - t)
    const s2 = this.lo + lo
    const t2 = s2 - this.lo
    const e2 = this.lo - (s2 - t2) + (lo - t2)
    const c = e + s2
    const h = s + c
    const l = c - (h - s) + e2
    this.hi = h + l
    this.lo = l - (this.hi - h)
    return this
  }

  /** Adds the product (aHi + aLo)(bHi + bLo). */
  addProduct(aHi: number, aLo: number, bHi: number, bLo: number): this {
    const p = aHi * bHi
    const ta = splitter * aHi
    const a1 = ta - (ta - aHi)
    const a2 = aHi - a1
    const tb = splitter * bHi
    const b1 = tb - (tb - bHi)
    const b2 = bHi - b1
    const e = a2 * b2 - (p - a1 * b1 - a2 * b1 - a1 * b2) + (aHi * bLo + aLo * bHi)
    return this.add(p, e)
  }

  times(hi: number, lo = 0): this {
    const h = this.hi
    const l = this.lo
    this.hi = 0
    this.lo = 0
    return this.addProduct(h, l, hi, lo)
  }

  over(hi: number, lo = 0): this {
    const first = this.hi / hi
    this.addProduct(-first, 0, hi, lo)
    const second = this.hi / hi
    this.addProduct(-second, 0, hi, lo)
    const third = this.hi / hi
    return this.set(first).add(second).add(third)
  }

  /** Square root; of a negative number, zero. */
  squareRoot(): this {
    if (!(this.hi > 0)) return this.set(0)
    const root = Math.sqrt(this.hi)
    this.addProduct(-root, 0, root, 0)
    const rest = this.hi / (2 * root)
    return this.set(root).add(rest)
  }
}

const splitter = 2 ** 27 + 1
