import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import ref from './matching.ref.json' with { type: 'json' }
import { type PairedUp, type Pairing, pairUp } from './pair-up.ts'
import { apart, type Metric, type Points } from './point-tree.ts'

interface Case {
  readonly id: string
  readonly scale: readonly number[]
  readonly total: number
  readonly points?: readonly (readonly number[])[]
  readonly n?: number
  readonly seed?: number
  /** Digits the generated values were rounded to; whole where left out. */
  readonly digits?: number
  readonly isOfThreeLots?: boolean
}

const pointsOf = (rows: readonly (readonly number[])[]): Points => ({
  count: rows.length,
  dimensions: rows[0]?.length ?? 1,
  at: Float64Array.from(rows.flat()),
})

/** The generator the reference points of large cases were made with. */
function generated({ n = 0, scale, seed = 0, digits, isOfThreeLots }: Case): number[][] {
  let a = seed
  const r = (): number => {
    a = (a + 0x6d2b79f5) | 0
    let t = Math.imul(a ^ (a >>> 15), 1 | a)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
  const [mean, spread] = [
    [4.25, 2.1, 165],
    [0.32, 0.28, 14],
  ]
  const lots = [
    [-0.4, 0.3, -12],
    [0, 0, 0],
    [0.35, -0.25, 15],
  ]
  const rounded = (x: number): number => (digits === undefined ? x : Number(x.toPrecision(digits)))
  return Array.from({ length: n }, () => {
    const lot = isOfThreeLots === true ? lots[Math.floor(r() * 3)]! : undefined
    return scale.map((_, d) => {
      const within = spread![d]! * ((r() + r() + r() - 1.5) * 2)
      return rounded(lot === undefined ? mean![d]! + within : mean![d]! + lot[d]! + 0.4 * within)
    })
  })
}

const scaled = (c: Case): Points => {
  const rows = c.points ?? generated(c)
  return pointsOf(rows.map((row) => row.map((x, k) => x / c.scale[k]!)))
}

/** Checks prices against every pair there is, by the definition of the dual problem; knows nothing of how they came. */
function verify(p: Pairing, got: PairedUp): void {
  const { count } = p.points
  const slack = 1e-9 * (1 + got.singleCost)
  const inside = got.groups().map((g) => ({ set: new Set(g.members), price: g.price }))
  for (const g of got.groups()) {
    expect(g.members.length % 2).toBe(1)
    expect(g.price).toBeGreaterThan(0)
  }
  for (let i = 0; i < count; i++) {
    expect(got.prices[i]!).toBeLessThanOrEqual(got.singleCost + slack)
    for (let j = 0; j < i; j++) {
      if (p.mayPair?.(i, j) === false) continue
      let least = got.prices[i]! + got.prices[j]!
      const cost = apart(p.points, i, j, p.metric)
      if (least <= cost + slack) continue
      for (const g of inside) if (g.set.has(i) && g.set.has(j)) least -= g.price
      if (least > cost + slack) expect([i, j, least]).toEqual([i, j, cost])
    }
  }
  let bound = 0
  let single = 0
  for (let v = 0; v < count; v++) {
    bound += got.prices[v]!
    if (got.mate[v]! < 0) single++
    else expect(got.mate[got.mate[v]!]).toBe(v)
  }
  for (const g of got.groups()) bound -= (g.price * (g.members.length - 1)) / 2
  expect(Math.abs(got.cost + single * got.singleCost - bound)).toBeLessThan(1e-8 * (1 + count) * (1 + got.singleCost))
}

describe('reference totals', () => {
  test.each(ref.pairs as readonly Case[])('$id', (c) => {
    const pairing: Pairing = { points: scaled(c), metric: 'distance' }
    const got = pairUp(pairing)
    expect(Math.abs(got.cost - c.total)).toBeLessThan(1e-9)
    expect((got.cost - got.bound) / got.cost).toBeLessThan(1e-9)
    if (pairing.points.count <= 500) verify(pairing, got)
  })
})

/** The most pairs, then the least cost, by trying everything. */
function tryAll(p: Pairing): { readonly pairs: number; readonly cost: number } {
  const from = (free: readonly number[]): { pairs: number; cost: number } => {
    const [first, ...others] = free
    if (first === undefined) return { pairs: 0, cost: 0 }
    let best = from(others)
    for (const j of others) {
      if (p.mayPair?.(first, j) === false) continue
      const rest = from(others.filter((x) => x !== j))
      const cost = rest.cost + apart(p.points, first, j, p.metric)
      if (rest.pairs + 1 > best.pairs || (rest.pairs + 1 === best.pairs && cost < best.cost))
        best = { pairs: rest.pairs + 1, cost }
    }
    return best
  }
  return from(Array.from({ length: p.points.count }, (_, i) => i))
}

const coordinate = fc.oneof(fc.integer({ min: 0, max: 4 }), fc.double({ min: 0, max: 4, noNaN: true }))
const metrics: readonly Metric[] = ['distance', 'half square', 'sum']
const anyPairing = fc
  .tuple(
    fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 9 }),
    fc.constantFrom(...metrics),
    fc.option(fc.double({ min: 0.1, max: 3, noNaN: true })),
    fc.integer({ min: 1, max: 8 }),
  )
  .map(([rows, metric, within, neighbours]): Pairing => {
    const points = pointsOf(rows)
    const near = (i: number, j: number): boolean =>
      [0, 1].every((k) => Math.abs(points.at[2 * i + k]! - points.at[2 * j + k]!) <= within!)
    return { points, metric, neighbours, ...(within === null ? {} : { mayPair: near }) }
  })

describe('small cases', () => {
  test('come to what trying everything does, with prices that prove it', () => {
    fc.assert(
      fc.property(anyPairing, (p) => {
        const got = pairUp(p)
        const best = tryAll(p)
        expect(got.mate.filter((m) => m >= 0).length / 2).toBe(best.pairs)
        expect(Math.abs(got.cost - best.cost)).toBeLessThan(1e-9)
        expect(got.bound).toBeGreaterThan(best.cost - 1e-7)
        verify(p, got)
      }),
      { numRuns: 6000, seed: 6 },
    )
  }, 120_000)
})
