import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { matchParts } from './match-parts.ts'
import { placeParts } from './place-parts.ts'
import { type MatchPart, type MatchRequestInput, matchRequestSchema, type Objective } from './request.ts'
import { setCost } from './set-cost.ts'
import { setsExactly } from './sets-exactly.ts'

const parts = (count: number, seed: number): readonly MatchPart[] => {
  const random = new Random(seed, 'one parameter')
  return Array.from({ length: count }, (_, i) => ({
    tag: `P${String(i).padStart(2, '0')}`,
    values: { vbe: Math.round(200 * random.uniform()) / 10 },
    labels: { lot: i % 3 === 0 ? 'ash' : 'elm' },
  }))
}

const objectives: readonly Objective[] = ['pair-distance', 'largest-distance', 'squared-deviations', 'sum-of-ranges']

describe('sets by one parameter', () => {
  test.each(objectives)('cost what the best of all choices does: %s', (objective) => {
    const wishes: readonly Partial<MatchRequestInput>[] = [
      {},
      { size: 2 },
      { size: 4 },
      { sets: 2 },
      { same: ['lot'] },
      { by: [{ name: 'vbe', scale: 2, within: { absolute: 1.5 } }] },
      { by: [{ name: 'vbe', scale: 2, within: { percent: 10 } }], sets: 2 },
    ]
    for (let seed = 1; seed <= 12; seed++)
      for (const wish of wishes) {
        const request = matchRequestSchema.parse({ size: 3, by: [{ name: 'vbe', scale: 2 }], objective, ...wish })
        const own = parts(9 + (seed % 5), seed)
        const placed = placeParts(own, request)
        const exact = setsExactly(placed, request)
        const got = matchParts(own, request)
        expect(got.sets).toHaveLength(exact.length)
        expect(got.proof.kind).toBe('optimal')
        const least = exact.reduce((sum, set) => sum + setCost(placed.points, set, objective), 0)
        expect(Math.abs(got.totalCost - least)).toBeLessThan(1e-9)
      }
  })

  test('a lot of a hundred thousand takes no more than a moment', () => {
    const many = parts(100_000, 3).map((part, i) => ({ ...part, tag: `P${i}` }))
    const got = matchParts(many, matchRequestSchema.parse({ size: 4, by: [{ name: 'vbe', scale: 1 }] }))
    expect(got.sets).toHaveLength(25_000)
    expect(got.proof.kind).toBe('optimal')
  })
})
