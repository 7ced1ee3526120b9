import { describe, expect, test } from 'vitest'
import { expectPrinted, expectRelative } from '#core/testing'
import published from './control.ref.json'
import {
  chartRules,
  checkStandardExampleCsv,
  controlChart,
  driftOf,
  readCheckStandards,
  signalsOf,
  steadiness,
} from './index.ts'

const dated = (values: readonly (readonly number[])[]) =>
  values.map((v, i) => ({
    at: `2024-${String(Math.floor(i / 28) + 1).padStart(2, '0')}-${String((i % 28) + 1).padStart(2, '0')}`,
    values: v,
  }))

/** Montgomery, Introduction to Statistical Quality Control, example 6.1: 25 groups of five. */
describe('flow width, mean and range', () => {
  const c = controlChart(dated(published.flowWidth.data))
  const { published: printed, computed } = published.flowWidth

  test('centre, spread and limits as printed', () => {
    expect(c.kind).toBe('mean and range')
    expectPrinted(c.centre, String(printed.xbarbar))
    expectRelative(c.centre, computed.xbarbar, 1e-12)
    // the book takes A2 and D4 to three digits
    expectRelative(c.points[0]!.limits[1], printed.X_UCL, 1e-4)
    expectRelative(c.points[0]!.limits[0], printed.X_LCL, 1e-4)
    expectRelative(c.points[0]!.spreadLimits[1], printed.R_UCL, 5e-4)
    expect(c.points[0]!.spreadLimits[0]).toBe(0)
    expectPrinted(c.sigma, String(printed.sigma))
  })

  test('is in control', () => expect(c.signals).toEqual([]))

  test('by standard deviations the limits are nearly the same', () => {
    const s = controlChart(dated(published.flowWidth.data), { spread: 'sd' })
    expect(s.kind).toBe('mean and standard deviation')
    expectRelative(s.sigma, c.sigma, 0.03)
  })
})

/** NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4: weight 0.3, centre 50, s 2.0539 (from memory). */
test('the moving average follows the published one', () => {
  const data = [
    52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
  ]
  const printed = [
    '50.60',
    '49.52',
    '50.56',
    '50.18',
    '50.16',
    '49.21',
    '49.75',
    '49.85',
    '50.26',
    '50.33',
    '50.11',
    '49.36',
    '49.52',
    '50.05',
    '49.38',
    '49.92',
    '50.73',
    '51.23',
    '51.94',
    '51.99',
  ]
  const c = controlChart(dated(data.map((x) => [x])), { weight: 0.3 })
  // the handbook starts from a known centre of 50; ours from the mean, which fades by 0.7 a step
  for (const [i, p] of c.points.entries())
    expectPrinted(p.average!.value - (c.centre - 50) * 0.7 ** (i + 1), printed[i]!)
  const last = c.points.at(-1)!.average!
  expectPrinted(50 + ((last.high - c.centre) / c.sigma) * 2.0539, '52.5884', 30)
})

/** Single readings: limits at 2.66 mean moving ranges (3/1.128), upper limit of the moving range at 3.267 of them. */
test('single readings with the moving range', () => {
  const c = controlChart(dated([[10], [12], [11], [13], [10], [12]]))
  const meanRange = (2 + 1 + 2 + 3 + 2) / 5
  expect(c.kind).toBe('individuals')
  expectRelative(c.points[0]!.limits[1] - c.centre, 2.66 * meanRange, 1e-3)
  expectRelative(c.points[0]!.spreadLimits[1], 3.267 * meanRange, 1e-3)
  expect(c.points[0]!.spread).toBeUndefined()
})

/** One sequence for each rule that breaks it and none of the others of its set at the last point. */
describe('rules', () => {
  const nine = [0.5, 0.2, 0.9, 0.3, 0.1, 0.6, 0.4, 0.2, 0.8]
  const cases: readonly (readonly [string, readonly number[]])[] = [
    ['beyond', [0, 0, -3.1]],
    ['two-of-three', [0, 2.1, -0.5, 2.2]],
    ['four-of-five', [-1.2, 0.3, -1.5, -1.1, -1.3]],
    ['nine-on-one-side', nine],
    ['six-in-a-trend', [-0.9, -0.5, -0.1, 0.2, 0.6, 0.9]],
    [
      'fourteen-alternating',
      Array.from({ length: 14 }, (_, i) => (i % 2 === 0 ? 1.4 : -1.4) * (i % 3 === 0 ? 0.5 : 1)),
    ],
    ['fifteen-near-the-centre', Array.from({ length: 15 }, (_, i) => [0.5, 0.6, -0.4, -0.5][i % 4]!)],
    ['eight-far-out', [1.5, 1.2, -1.4, -1.1, 1.3, 1.6, -1.2, -1.8]],
  ]

  test.each(cases)('%s', (id, z) =>
    expect(
      signalsOf(z, 'nelson')
        .at(-1)!
        .map((r) => r.id),
    ).toEqual([id]),
  )

  test('every rule of both sets is tried, and has a source', () => {
    const tried = new Set([...cases.map(([id]) => id), 'eight-on-one-side'])
    for (const rule of Object.values(chartRules).flat()) {
      expect(tried).toContain(rule.id)
      expect(rule.source).toMatch(/19\d\d/)
    }
    expect(
      signalsOf(nine.slice(0, 8), 'western-electric')
        .at(-1)!
        .map((r) => r.id),
    ).toEqual(['eight-on-one-side'])
    expect(signalsOf(nine.slice(0, 8), 'nelson').flat()).toEqual([])
  })

  /** Chance of one point beyond three standard deviations: 0.0027, so one in 370 (Montgomery, 5.3). */
  test('a point at the limit itself is inside', () => expect(signalsOf([3], 'western-electric')).toEqual([[]]))
})

describe('drift', () => {
  const at = (years: number): string => new Date(Date.UTC(2020, 0, 1) + years * 365.25 * 864e5).toISOString()
  const values = [0, 0.5, 1, 1.5, 2, 2.5].map((y, i) => ({
    at: at(y),
    value: 100 + 2 * y + (i % 2 === 0 ? 0.1 : -0.1),
  }))

  test('the slope a year, and when the line leaves its bounds', () => {
    const d = driftOf(values, { high: 110 })
    expect(d.isSeen).toBe(true)
    expect(d.perYear.low).toBeLessThan(2)
    expect(d.perYear.high).toBeGreaterThan(2)
    expect(d.outside!.expected).toMatch(/^2025-0[1-3]/)
    expect(Date.parse(d.outside!.earliest!)).toBeLessThan(Date.parse(d.outside!.expected!))
    expect(d.outside!.isNow).toBe(false)
    expect(driftOf(values, { high: 102 }).outside!.isNow).toBe(true)
  })

  test('no slope is seen in mere scatter, and no date is given', () => {
    const d = driftOf(
      values.map((v, i) => ({ ...v, value: 100 + (i % 2) })),
      { low: 50, high: 150 },
    )
    expect(d.isSeen).toBe(false)
    expect(d.outside).toEqual({ isNow: false })
  })

  test('one day alone says nothing of drift', () =>
    expect(() => driftOf(values.map((v) => ({ ...v, at: at(0) })))).toThrow(/at least a day/))
})

describe('check standards', () => {
  test('the example drifts and is out of control', () => {
    const [s, more] = readCheckStandards(checkStandardExampleCsv, 'x.csv')
    expect(more).toBeUndefined()
    expect(s).toMatchObject({ part: 'CS-1', unit: '1' })
    const found = steadiness(s!, { baseline: 12 })
    expect(found.word).toBe('out of control')
    expect(found.chart.signals.length).toBeGreaterThan(0)
    expect(found.drift.isSeen).toBe(true)
  })

  test('readings of a day are a group, parts are told apart', () => {
    const all = readCheckStandards('at,part,reading [uA]\n2024-01-01,A,1\n2024-01-01,A,2\n2024-01-02,B,3\n', 'x.csv')
    expect(all.map((s) => [s.part, s.groups.map((g) => g.values.length)])).toEqual([
      ['A', [2]],
      ['B', [1]],
    ])
  })

  test.each([
    ['at,reading\n1.3.24,5\n', /is not a date/],
    ['at\n2024-01-01\n', /"reading" is a column that is missing/],
  ])('%j is refused', (text, say) => expect(() => readCheckStandards(text, 't.csv')).toThrow(say))

  test('too few groups, and readings that never differ, are refused', () => {
    expect(() => controlChart(dated([[1], [2]]))).toThrow(/at least 3/)
    expect(() => controlChart(dated([[1], [1], [1]]))).toThrow(/finer part/)
  })
})
