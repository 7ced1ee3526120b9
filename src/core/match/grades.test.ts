import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { type Graded, gradeParts } from './grades.ts'

const lot = (count: number, seed: number): readonly Graded[] => {
  const random = new Random(seed, 'lot')
  return Array.from({ length: count }, (_, i) => ({ tag: `P${i}`, value: Math.round(100 * random.uniform()) }))
}

const squares = (x: readonly number[]): number => {
  const mean = x.reduce((sum, one) => sum + one, 0) / x.length
  return x.reduce((sum, one) => sum + (one - mean) ** 2, 0)
}

/** Least sum of squares of a sorted list cut into batches, by trying every cut. */
function leastByTrying(x: readonly number[], batches: number): number {
  if (batches === 1) return squares(x)
  let least = Number.POSITIVE_INFINITY
  for (let cut = 1; cut <= x.length - batches + 1; cut++)
    least = Math.min(least, squares(x.slice(0, cut)) + leastByTrying(x.slice(cut), batches - 1))
  return least
}

describe('batches of a lot', () => {
  test('natural ones have the least squares there can be', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const parts = lot(11, seed)
      const sorted = parts.map((p) => p.value).sort((a, b) => a - b)
      for (const codes of [
        ['A', 'B'],
        ['A', 'B', 'C'],
        ['A', 'B', 'C', 'D'],
      ]) {
        const value = new Map(parts.map((p) => [p.tag, p.value]))
        const got = gradeParts(parts, codes, 'natural')
        const sum = got.reduce((total, one) => total + squares(one.tags.map((tag) => value.get(tag)!)), 0)
        expect(sum).toBeCloseTo(leastByTrying(sorted, codes.length), 8)
      }
    }
  })

  test('equal ones differ by one part at most, and every part is in one', () => {
    const got = gradeParts(lot(23, 2), ['low', 'middle', 'high', 'top'], 'equal')
    expect(got.map((one) => one.code)).toEqual(['low', 'middle', 'high', 'top'])
    const counts = got.map((one) => one.tags.length)
    expect(Math.max(...counts) - Math.min(...counts)).toBeLessThanOrEqual(1)
    expect(new Set(got.flatMap((one) => one.tags)).size).toBe(23)
    for (const [i, one] of got.entries()) expect(one.from).toBeGreaterThanOrEqual(got[i - 1]?.to ?? 0)
  })

  test('more batches than parts are refused', () => {
    expect(() => gradeParts(lot(2, 1), ['A', 'B', 'C'], 'equal')).toThrow(/count of batches is 3/)
  })
})
