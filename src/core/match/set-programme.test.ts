import highs from 'highs'
import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { matchParts, matchPartsProven } from './match-parts.ts'
import { placeParts } from './place-parts.ts'
import { possibleSets } from './possible-sets.ts'
import { type MatchPart, type MatchRequestInput, matchRequestSchema } from './request.ts'
import { costFromPrices } from './set-prices.ts'
import type { ProgrammeSolver } from './set-programme.ts'
import { setsExactly } from './sets-exactly.ts'

const { solve: solveText } = await highs()
const solve: ProgrammeSolver = (text) => {
  const found = solveText(text, { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-10, time_limit: 60 })
  const rows = found.Rows as readonly { readonly Name: string; readonly Dual?: number }[]
  return {
    isOptimal: found.Status === 'Optimal',
    values: Object.fromEntries(
      Object.entries(found.Columns).map(([name, c]) => [name, (c as { Primal: number }).Primal]),
    ),
    duals: Object.fromEntries(rows.map((r) => [r.Name, r.Dual ?? 0])),
  }
}

const parts = (count: number, seed: number): readonly MatchPart[] => {
  const random = new Random(seed, 'programme')
  const x = new Float64Array(2 * count)
  random.fillNormal(x)
  return Array.from({ length: count }, (_, i) => ({
    tag: `P${String(i).padStart(3, '0')}`,
    values: { a: x[2 * i]!, b: x[2 * i + 1]! },
  }))
}
const by: MatchRequestInput['by'] = [
  { name: 'a', scale: 1 },
  { name: 'b', scale: 1 },
]
const asked = (more: Partial<MatchRequestInput>) => matchRequestSchema.parse({ size: 3, by, ...more })

describe('sets by programme', () => {
  test.each([
    [15, {}],
    [16, { size: 4, objective: 'largest-distance' }],
    [14, { sets: 2, objective: 'squared-deviations' }],
    [16, { by: [{ name: 'a', scale: 1, within: { absolute: 0.4 } }, by[1]!] }],
    [16, { together: [['P001', 'P009']] }],
  ] as const)('%i parts come to what trying everything does', async (count, more) => {
    for (let seed = 1; seed <= 4; seed++) {
      const request = asked(more as Partial<MatchRequestInput>)
      const own = parts(count, seed)
      const exact = matchParts(own, request)
      // three parts far away from all and from each other make it too many to try everything
      const far = [1e4, 2e4, 4e4].map((a, i) => ({ tag: `Q${i}`, values: { a, b: -a } }))
      const wide = matchPartsProven([...own, ...far], { ...request, sets: exact.sets.length }, solve)
      expect(wide.totalCost).toBeCloseTo(exact.totalCost, 8)
      expect(wide.proof.kind).toBe('optimal')
    }
  })

  test('thirty parts in quads are proven, and the search alone is no better', () => {
    const request = asked({ size: 4 })
    const searched = matchParts(parts(30, 5), request)
    const proven = matchPartsProven(parts(30, 5), request, solve)
    expect(searched.proof.kind).toBe('bound')
    expect(proven.proof.kind).toBe('optimal')
    expect(proven.totalCost).toBeLessThanOrEqual(searched.totalCost + 1e-9)
    expect(proven.sets).toHaveLength(7)
  }, 60_000)
})

test('any prices bound the least cost', () => {
  const random = new Random(7, 'prices')
  for (let seed = 1; seed <= 30; seed++) {
    const request = asked({})
    const placed = placeParts(parts(12, seed), request)
    const all = possibleSets(placed, request, 1e6)!
    const sets = setsExactly(placed, request)
    const least = matchParts(parts(12, seed), request).totalCost
    const part = new Float64Array(12)
    random.fillNormal(part)
    const prices = { part: part.map((x) => -Math.abs(x)), set: 3 * random.uniform() }
    expect(costFromPrices(all, prices, sets.length)).toBeLessThanOrEqual(least + 1e-9)
  }
})
