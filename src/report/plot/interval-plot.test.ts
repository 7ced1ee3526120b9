import { describe, expect, test } from 'vitest'
import { shapesKept } from './dense-rows.ts'
import { type IntervalPlot, type IntervalRow, intervalPlot, intervalPlotDefaults } from './interval-plot.ts'

const row = (label: string, value: number, half: number, outcome: IntervalRow['outcome']): IntervalRow => ({
  label,
  value,
  low: value - half,
  high: value + half,
  outcome,
})

const plot = (rows: readonly IntervalRow[]): IntervalPlot => ({
  title: 'Gain <of> a lot',
  desc: '3 values',
  axis: { symbol: 'h_FE', name: 'current gain', unit: '1', kind: 'log' },
  groups: [
    {
      label: 'AC<128>',
      at: 'I_C 50 mA, V_CE 1 V',
      limits: [
        { kind: 'min', value: 60, label: 'min 60' },
        { kind: 'max', value: 175, label: 'max 175' },
      ],
      rows,
    },
  ],
})

const three = [row('A1', 100, 5, 'conforms'), row('<A2>', 60, 6, 'undecided'), row('A3', 30, 2, 'does not conform')]

const numbersOf = (svg: string, pattern: RegExp): readonly number[] =>
  [...svg.matchAll(pattern)].map((m) => Number(m[1]))

describe('a few parts', () => {
  const svg = intervalPlot(plot(three))

  test('each has its tag, its shape and its interval', () => {
    expect(svg.match(/class="tag"/g)).toHaveLength(3)
    expect(svg.match(/class="interval"/g)).toHaveLength(3)
    for (const o of ['o-conforms', 'o-undecided', 'o-does-not-conform']) expect(svg).toContain(`class="${o}"`)
  })

  test('limits are lines with their labels, what they allow is a band', () => {
    expect(svg.match(/class="limit"/g)).toHaveLength(2)
    expect(svg).toContain('>min 60</text>')
    expect(svg).toContain('class="allowed"')
  })

  test('it is named and described, and the axis says quantity and scale', () => {
    expect(svg).toMatch(
      /^<svg class="plot" role="img"[^>]*><title>Gain &lt;of&gt; a lot<\/title><desc>3 values<\/desc>/,
    )
    expect(svg).toContain('Current gain <tspan')
    expect(svg).toContain(', log scale</text>')
  })

  test('what people typed is escaped', () => {
    expect(svg).toContain('&lt;A2&gt;')
    expect(svg).toContain('AC&lt;128&gt;')
    expect(svg).not.toMatch(/<A2>|<128>/)
  })

  test('all of it lies inside the drawing', () => {
    const { width } = intervalPlotDefaults
    const xs = [...numbersOf(svg, /translate\(([\d.-]+) /g), ...numbersOf(svg, /M([\d.-]+) /g).filter((x) => x > 10)]
    expect(Math.min(...numbersOf(svg, /translate\(([\d.-]+) /g))).toBeGreaterThan(0)
    expect(Math.max(...xs)).toBeLessThan(width)
  })

  test('a long tag is cut short', () => {
    const long = intervalPlot(plot([row('x'.repeat(200), 100, 5, 'conforms')]))
    expect(long).toContain('xx\u2026</text>')
    expect(long).not.toContain('x'.repeat(60))
  })

  test('a narrow drawing keeps its size of type and stays narrow', () => {
    const narrow = intervalPlot(plot(three), { width: 356 })
    expect(narrow).toContain('viewBox="0 0 356 ')
    expect(Math.max(...numbersOf(narrow, /translate\(([\d.-]+) /g))).toBeLessThan(356)
  })
})

test('an interval that reaches below a log axis ends in an arrow', () => {
  const svg = intervalPlot(plot([row('A1', 3, 5, 'undecided'), ...three]))
  expect(svg).toMatch(/class="interval" d="M[\d.]+ [\d.]+H[\d.]+M[\d.]+ [\d.]+l-5 4l5 4/)
})

describe('thousands of parts', () => {
  const many = Array.from({ length: 10_000 }, (_, i) =>
    row(`P${i}`, 50 + (i % 100), 3, i % 100 === 0 ? 'does not conform' : i % 50 === 1 ? 'undecided' : 'conforms'),
  )
  const svg = intervalPlot(plot(many))

  test('one path for all intervals, dots in one path per outcome', () => {
    expect(svg.match(/class="interval many"/g)).toHaveLength(1)
    expect(svg.match(/class="dots/g)).toHaveLength(2)
    expect(svg).not.toContain('class="tag"')
    expect(svg.length).toBeLessThan(500_000)
  })

  test('the few that do not conform keep their shape', () => {
    expect(many.filter((r) => r.outcome === 'does not conform').length).toBeLessThan(shapesKept)
    expect(svg.match(/class="o-does-not-conform"/g)).toHaveLength(100)
  })
})
