import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { expectPrinted, expectRelative } from '#core/testing'
import published from './agreement.ref.json'
import { compareExampleCsv, compareTesters, interchange, type PairedPart, readPairedTable } from './index.ts'

const { computed } = published
const once: readonly PairedPart[] = published.wright_first.map((x, i) => ({
  part: String(i + 1),
  first: [x],
  second: [published.mini_first[i]!],
}))
const twice: readonly PairedPart[] = published.wright_first.map((x, i) => ({
  part: String(i + 1),
  first: [x, published.wright_second[i]!],
  second: [published.mini_first[i]!, published.mini_second[i]!],
}))
const names = ['Wright', 'mini Wright'] as const

/** Bland and Altman, Lancet 1986, peak flow in l/min; the paper takes 2 standard deviations. */
describe('Bland and Altman 1986', () => {
  const c = compareTesters(names, '1', once, { factor: 2 })

  test('bias, spread and limits of agreement, to all digits recomputed from the published data', () => {
    expectRelative(c.bias.value, computed.mean_difference, 1e-12)
    expectRelative(c.sd, computed.sd, 1e-12)
    expectRelative(c.bias.u, computed.se_mean, 1e-12)
    expectRelative(c.bias.low, computed.ci95_mean[0]!, 1e-12)
    expectRelative(c.bias.high, computed.ci95_mean[1]!, 1e-12)
    expectRelative(c.limits.lower.value, computed.limits_2s[0]!, 1e-12)
    expectRelative(c.limits.upper.value, computed.limits_2s[1]!, 1e-12)
    expectRelative(c.limits.lower.u, computed.se_limits_sqrt3, 1e-12)
    const usual = compareTesters(names, '1', once)
    expectRelative(usual.limits.upper.value, computed['limits_1.96s'][1]!, 1e-12)
  })

  test('the figures as printed', () => {
    expectPrinted(c.bias.value, '-2.1')
    expectPrinted(c.sd, '38.8')
    expectPrinted(c.bias.u, '9.4')
    expectPrinted(c.limits.lower.u, '16.3')
    // the paper carries -2.1 and 38.8 on and rounds again, and so moves the last digit by up to two
    expectPrinted(c.limits.lower.value, '-79.7', 3)
    expectPrinted(c.limits.upper.value, '75.5', 3)
    expectPrinted(c.limits.upper.low, '40.9', 4)
    expectPrinted(c.limits.upper.high, '110.1', 4)
    expectPrinted(c.limits.lower.low, '-114.3', 4)
    expectPrinted(c.limits.lower.high, '-45.1', 4)
  })

  test('spread of repeats, and the spread of differences brought back to single readings', () => {
    const both = compareTesters(names, '1', twice, { factor: 2 })
    expectRelative(both.repeats[0]!.sd, computed.within_subject_sd.wright, 1e-12)
    expectRelative(both.repeats[1]!.sd, computed.within_subject_sd.mini, 1e-12)
    expect(both.repeats[0]!.dof).toBe(17)
    // printed 37.7 (from memory)
    expectPrinted(both.sd, '37.7')
  })

  test('neither meter reads more by a part, and the scatter is even', () => {
    expect(c.proportional.isSeen).toBe(false)
    expect(c.widening.isSeen).toBe(false)
    expect(c.limitsAt(300)).toEqual([c.limits.lower.value, c.limits.upper.value])
  })
})

describe('a tester that reads 10 % more', () => {
  const parts = [10, 20, 30, 40, 50, 60, 70, 80].map((x, i) => ({
    part: `P${i}`,
    first: [1.1 * x * (i % 2 === 0 ? 1.01 : 0.99)],
    second: [x],
  }))

  test('is seen as proportional, and the limits slope', () => {
    const c = compareTesters(['A', 'B'], 'A', parts)
    expect(c.proportional.isSeen).toBe(true)
    expect(c.limitsAt(80)[0]).toBeGreaterThan(c.limitsAt(20)[1])
  })

  test('is one ratio on the ratio scale', () => {
    const c = compareTesters(['A', 'B'], 'A', parts, { scale: 'ratio' })
    expect(c.bias.value).toBeGreaterThan(1.09)
    expect(c.bias.value).toBeLessThan(1.11)
    expect(c.proportional.isSeen).toBe(false)
    expect(interchange(c, { within: 0.05 }).word).toBe('no')
    expect(interchange(c, { within: 0.2 }).word).toBe('yes')
  })
})

describe('whether one may stand in for the other', () => {
  const c = compareTesters(names, '1', once)

  test('yes needs both limits certainly inside, no one certainly outside', () => {
    expect(interchange(c, { within: 120 }).word).toBe('yes')
    expect(interchange(c, { within: 80 }).word).toBe('undecided')
    expect(interchange(c, { within: 30 }).word).toBe('no')
    expect(interchange(c, {}).word).toBe('not asked')
  })

  test('a limit between two parts puts some of them on different sides', () => {
    const answer = interchange(c, { limit: { kind: 'max', value: 420 } })
    expect(answer.word).toBe('no')
    const differing = once.filter((p) => p.first[0]! <= 420 !== p.second[0]! <= 420).map((p) => p.part)
    expect(differing.length).toBeGreaterThan(0)
    expect(answer.apart).toEqual(differing)
    expect(interchange(c, { limit: { kind: 'max', value: 2000 } }).word).toBe('yes')
  })
})

describe('the table', () => {
  test('the example is read with its unit and repeats', () => {
    const t = readPairedTable(compareExampleCsv, 'example.csv')
    expect(t).toMatchObject({ names: ['Larkfield', 'bench meter'], unit: 'A' })
    expect(t.parts).toHaveLength(12)
    expect(t.parts[0]!.first).toHaveLength(2)
    expectRelative(t.parts[0]!.first[0]!, 12e-6, 1e-12)
    expect(compareTesters(t.names, t.unit, t.parts).count).toBe(12)
  })

  test('a part read on one tester only is left out and said', () => {
    const t = readPairedTable('part,A,B\n1,2,3\n2,,4\n3,4,5\n4,5,5\n', 'x.csv')
    expect(t.parts.map((p) => p.part)).toEqual(['1', '3', '4'])
    expect(t.notes.join()).toContain('left out: 2')
  })

  test.each([
    ['part,A\n1,2\n', /two testers/],
    ['x,A,B\n1,2,3\n', /"part" is a column that is missing/],
    ['part,A [uA],B [uA]\n1,2 V,3\n', /row 2, column "A"/],
    ['part,A,B\n,2,3\n', /is no tag/],
  ])('%j is refused', (text, say) => {
    expect(() => readPairedTable(text, 't.csv')).toThrow(FaultError)
    expect(() => readPairedTable(text, 't.csv')).toThrow(say)
  })

  test('too few parts, and parts all alike, are refused', () => {
    expect(() => compareTesters(['A', 'B'], '1', once.slice(0, 2))).toThrow(/at least 3/)
    expect(() =>
      compareTesters(
        ['A', 'B'],
        '1',
        [1, 2, 3].map((n) => ({ part: `${n}`, first: [5], second: [5] })),
      ),
    ).toThrow(/span of the parts/)
  })
})
