import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { normalCdf } from '#core/numeric'
import { standardUncertainty } from '#core/quantity'
import { matchExampleCsv } from './match-example.ts'
import { matchParts } from './match-parts.ts'
import ref from './matching.ref.json' with { type: 'json' }
import { readMatchParts } from './read-match-parts.ts'
import { type MatchPart, type MatchRequestInput, matchRequestSchema, type Objective } from './request.ts'
import { matchWants } from './wants.ts'

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

describe('parts that stay together', () => {
  const parts = partsOf(rows(9, 4))
  test('are a set already where they are as many as one; the others are matched', () => {
    const got = matchParts(parts, request({ by: by([1, 1]), together: [['P007', 'P002']], sets: 3 }))
    expect(got.sets).toHaveLength(3)
    expect(got.sets[0]).toMatchObject({ tags: ['P002', 'P007'], isGiven: true })
    const without = parts.filter((p) => !['P002', 'P007'].includes(p.tag))
    const others = matchParts(without, request({ by: by([1, 1]), sets: 2 }))
    expect(got.sets.slice(1)).toEqual(others.sets)
    expect(got.totalCost).toBeCloseTo(others.totalCost + got.sets[0]!.cost, 12)
    expect(got.proof.say).toContain('the given sets left as they are')
  })
  test('are in one set where they are fewer', () => {
    const got = matchParts(parts, request({ size: 3, by: by([1, 1]), together: [['P000', 'P008']] }))
    const own = got.sets.find((one) => one.tags.includes('P000'))
    expect(own?.tags).toContain('P008')
    expect(got.proof.kind).toBe('optimal')
  })
  test('are left over together', () => {
    const asked = request({ size: 3, by: by([1, 1]), together: [['P000', 'P008']], exclude: ['P008'] })
    expect(matchParts(parts, asked).leftOver).toContainEqual({
      tag: 'P000',
      why: 'stays together with P008, which is left over',
    })
  })
  test('must be there', () => {
    expect(() => matchParts(parts, request({ by: by([1, 1]), together: [['P000', 'P0O1']] }))).toThrow(/P0O1/)
  })
})

describe('how sure a set is', () => {
  const table = 'tag,vbe_mV,u(vbe_mV)\nA,600,1\nB,602,1\nC,640,1\nD,650,1\n'
  const read = readMatchParts(table, { file: 'p.csv', numbers: ['vbe_mV'] })
  const asked = request({ by: [{ name: 'vbe_mV', scale: 1, within: { absolute: 5 } }] })
  test('comes from the doubts of its values', () => {
    const got = matchParts(read.ok ? read.parts : [], asked)
    // the difference is 2 with a standard uncertainty of the square root of 2
    const u = Math.SQRT2
    expect(got.sets.map((one) => one.tags)).toEqual([['A', 'B']])
    expect(got.sets[0]!.probability).toBeCloseTo(normalCdf((5 - 2) / u) - normalCdf((-5 - 2) / u), 1)
  })
  test('is not told without a tolerance or without doubts', () => {
    const none = matchParts(read.ok ? read.parts : [], request({ by: [{ name: 'vbe_mV', scale: 1 }] }))
    expect(none.sets[0]!.probability).toBeUndefined()
    const plain = (read.ok ? read.parts : []).map(({ tag, values }) => ({ tag, values }))
    expect(matchParts(plain, asked).sets[0]!.probability).toBeUndefined()
  })
})

test('a logarithm of a column may be asked for', () => {
  const read = readMatchParts('tag,hfe,u(hfe)\nA,100,5\nB,0,1\n', { file: 'p.csv', numbers: ['ln(hfe)', 'hfe'] })
  const [a, b] = read.ok ? read.parts : []
  expect(a!.values).toEqual({ 'ln(hfe)': Math.log(100), hfe: 100 })
  expect(standardUncertainty(a!.quantities!['ln(hfe)']!)).toBeCloseTo(0.05, 12)
  expect(b!.values).toEqual({ hfe: 0 })
})

test.each(matchWants)('the want $name is a request that holds', ({ request: wanted }) => {
  expect(matchRequestSchema.safeParse(wanted).success).toBe(true)
})

test('every fault of a table is told', () => {
  const read = readMatchParts('tag,a\nX,1\nX,zz\n', { file: 'p.csv', numbers: ['a'] })
  expect(read.ok ? [] : read.faults.map((f) => f.code)).toEqual(['bad-input', 'bad-input'])
  const missing = readMatchParts('tag,vbe_mV\nX,1\n', { file: 'p.csv', numbers: ['vbe_mv'] })
  expect(missing.ok ? [] : missing.faults).toMatchObject([{ mend: 'Did you mean vbe_mV?' }])
})
