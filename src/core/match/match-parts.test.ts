import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { matchExampleCsv } from './match-example.ts'
import { matchParts } from './match-parts.ts'
import ref from './matching.ref.json' with { type: 'json' }
import { readMatchParts } from './read-match-parts.ts'
import { type MatchPart, type MatchRequestInput, matchRequestSchema, type Objective } from './request.ts'

const request = (input: MatchRequestInput) => matchRequestSchema.parse(input)

const partsOf = (rows: readonly (readonly number[])[]): readonly MatchPart[] =>
  rows.map((row, i) => ({
    tag: `P${String(i).padStart(3, '0')}`,
    values: Object.fromEntries(row.map((x, k) => [`c${k}`, x])),
  }))

const by = (scale: readonly number[]) => scale.map((s, k) => ({ name: `c${k}`, scale: s }))

describe('quads', () => {
  const wanted = ['largest-distance', 'squared-deviations', 'sum-of-ranges'] as const satisfies readonly Objective[]
  for (const objective of wanted)
    test.each(ref.quads)(`$id, ${objective}`, (c) => {
      const got = matchParts(partsOf(c.points), request({ size: 4, by: by(c.scale), objective }))
      expect(Math.abs(got.totalCost - c[objective])).toBeLessThan(1e-9)
      expect(got.proof.kind).toBe('optimal')
    })
})

const rows = (count: number, seed: number): readonly (readonly number[])[] =>
  fc.sample(fc.tuple(fc.double({ min: 0, max: 9, noNaN: true }), fc.double({ min: 0, max: 9, noNaN: true })), {
    numRuns: count,
    seed,
  })

describe('the order of parts', () => {
  test.each([2, 3, 4])('does not matter for sets of %i', (size) => {
    const parts = partsOf(rows(40, size))
    const asked = request({ size, by: by([1, 1]), objective: 'squared-deviations' })
    expect(matchParts([...parts].reverse(), asked)).toEqual(matchParts(parts, asked))
  })
})

describe('a search', () => {
  test('never does better than its bound, and has every part once', () => {
    for (let seed = 1; seed < 20; seed++) {
      const parts = partsOf(rows(26, seed))
      for (const objective of ['pair-distance', 'largest-distance', 'squared-deviations', 'sum-of-ranges'] as const) {
        const got = matchParts(parts, request({ size: 3, by: by([1, 1]), objective }))
        expect(got.proof.bound).toBeLessThanOrEqual(got.totalCost)
        const tags = [...got.sets.flatMap((one) => one.tags), ...got.leftOver.map((one) => one.tag)]
        expect(tags.sort()).toEqual(parts.map((p) => p.tag))
      }
    }
  })
})

describe('so many pairs', () => {
  test('cost what the best of all choices does', () => {
    const parts = partsOf(rows(16, 5))
    for (const sets of [1, 3, 5]) {
      const few = matchParts(parts, request({ sets, by: by([1, 1]) }))
      // one more part, far away, makes it too many to try all
      const far: MatchPart = { tag: 'Q', values: { c0: 1e3, c1: 1e3 } }
      const many = matchParts([...parts, far], request({ sets, by: by([1, 1]) }))
      expect(many.totalCost).toBeCloseTo(few.totalCost, 9)
      expect(many.proof.gap).toBeLessThan(1e-6)
    }
  })
})

describe('what is asked for', () => {
  const read = readMatchParts(matchExampleCsv, { file: 'parts.csv', numbers: ['ln_hfe', 'vbe_mV'], labels: ['type'] })
  const parts = read.ok ? read.parts : []

  test('a tolerance comes before everything; what is left over says why', () => {
    const limit = { name: 'vbe_mV', scale: 5, within: { absolute: 1 } }
    const got = matchParts(parts, request({ by: [limit], exclude: ['OP-8'], reserve: ['OP-1'] }))
    expect(got.sets.map((one) => one.tags)).toEqual([['OP-4', 'OP-5']])
    expect(got.leftOver.map((one) => `${one.tag}: ${one.why}`)).toContain('OP-8: excluded')
    expect(got.leftOver.map((one) => `${one.tag}: ${one.why}`)).toContain('OP-1: reserved')
  })

  test('parts of different labels do not go together', () => {
    const mixed = parts.map((p, i) => ({ ...p, labels: { lot: i % 2 === 0 ? 'ash' : 'elm' } }))
    const got = matchParts(mixed, request({ by: [{ name: 'ln_hfe', scale: 0.05 }], same: ['lot'] }))
    const lots = new Map(mixed.map((p) => [p.tag, p.labels.lot]))
    for (const { tags } of got.sets) expect(lots.get(tags[0]!)).toBe(lots.get(tags[1]!))
    expect(got.sets.length).toBe(4)
  })
})

/** Least cost of an assignment of the rows of a square table to its columns, by going through subsets of columns. */
function leastAssignment(costs: readonly (readonly number[])[]): number {
  let least = new Map<number, number>([[0, 0]])
  for (const row of costs) {
    const next = new Map<number, number>()
    for (const [taken, sum] of least)
      row.forEach((cost, j) => {
        if ((taken >> j) & 1) return
        const mask = taken | (1 << j)
        next.set(mask, Math.min(next.get(mask) ?? Number.POSITIVE_INFINITY, sum + cost))
      })
    least = next
  }
  return [...least.values()][0]!
}

describe('complementary pairs', () => {
  test('cost what the best assignment does', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const size = 2 + (seed % 8)
      const all = rows(2 * size, seed)
      const parts = partsOf(all).map((p, i) => ({ ...p, labels: { polarity: i < size ? 'NPN' : 'PNP' } }))
      const got = matchParts(parts, request({ by: by([1, 1]), across: 'polarity' }))
      const costs = all.slice(0, size).map((a) => all.slice(size).map((b) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!)))
      expect(got.sets.length).toBe(size)
      expect(Math.abs(got.totalCost - leastAssignment(costs))).toBeLessThan(1e-9)
      expect(got.proof.kind).toBe('optimal')
    }
  })
})

test('every fault of a table is told', () => {
  const read = readMatchParts('tag,a\nX,1\nX,zz\n', { file: 'p.csv', numbers: ['a'] })
  expect(read.ok ? [] : read.faults.map((f) => f.code)).toEqual(['bad-input', 'bad-input'])
  const missing = readMatchParts('tag,vbe_mV\nX,1\n', { file: 'p.csv', numbers: ['vbe_mv'] })
  expect(missing.ok ? [] : missing.faults).toMatchObject([{ mend: 'Perhaps vbe_mV is meant.' }])
})
