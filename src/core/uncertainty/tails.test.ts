import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { sortedTails } from './tails.ts'

const bySorting = (values: Float64Array, count: number) => {
  const sorted = values.slice().sort()
  return { low: sorted.slice(0, count), high: sorted.slice(sorted.length - count) }
}

test.each<readonly [string, (i: number, z: number) => number]>([
  ['normal', (_, z) => z],
  ['with a few wild values', (i, z) => (i % 5000 === 7 ? z * 1e9 : z)],
  ['all alike', () => 4],
  ['of two values', (i) => i % 2],
  ['sorted already', (i) => i],
  ['sorted downwards', (i) => -i],
  ['in two far heaps', (i, z) => (i % 25 === 0 ? 1000 + z : z)],
  ['in step with the guess', (i, z) => (i % 12 === 0 ? 100 + z : z)],
])('tails of a sample %s are those of the whole sorted', (_, shape) => {
  const z = new Float64Array(100_000)
  new Random(4).fillNormal(z)
  const values = z.map((v, i) => shape(i, v))
  for (const count of [1, 50, 5000, 50_000]) {
    const [got, wanted] = [sortedTails(values, count), bySorting(values, count)]
    expect([got.low.length, got.high.length]).toEqual([count, count])
    expect(got.low.every((v, i) => v === wanted.low[i]) && got.high.every((v, i) => v === wanted.high[i])).toBe(true)
  }
})

test('tails of any short sample', () => {
  fc.assert(
    fc.property(fc.float64Array({ minLength: 1, maxLength: 50, noNaN: true }), fc.nat(), (values, n) => {
      const count = 1 + (n % values.length)
      expect(sortedTails(values, count)).toEqual(bySorting(values, count))
    }),
  )
})
