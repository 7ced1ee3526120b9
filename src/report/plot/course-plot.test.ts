import { describe, expect, test } from 'vitest'
import { dayOf } from '#core/numeric'
import { type CoursePlot, coursePlot } from './course-plot.ts'
import { layDates } from './date-scale.ts'

const plot: CoursePlot = {
  title: 'A <chart>',
  desc: 'd',
  x: 'dates',
  y: { symbol: 'h_FE', name: 'current gain', unit: '1', kind: 'linear' },
  points: [
    { x: dayOf('2024-01-10'), y: 100, low: 98, high: 102, outcome: 'conforms' },
    { x: dayOf('2024-07-10'), y: 112, outcome: 'does not conform' },
    { x: dayOf('2025-06-10'), y: 101, outcome: 'conforms' },
  ],
  isJoined: true,
  lines: [
    { kind: 'centre', label: 'mean', at: [[dayOf('2024-01-10'), 101]] },
    { kind: 'limit', label: 'upper limit', at: [[dayOf('2024-01-10'), 110]] },
  ],
  bands: [{ low: [[0, 99]].map(([, y]) => [dayOf('2024-01-10'), y!] as const), high: [[dayOf('2024-01-10'), 103]] }],
}

describe('a course', () => {
  const svg = coursePlot(plot)

  test('has a shape for each point, its interval, and one line that joins them', () => {
    expect(svg.match(/class="o-conforms"/g)).toHaveLength(2)
    expect(svg.match(/class="o-does-not-conform"/g)).toHaveLength(1)
    expect(svg.match(/class="interval thin"/g)).toHaveLength(1)
    expect(svg.match(/class="trace" d="M[\d. ]+L[\d. ]+L[\d. ]+"/g)).toHaveLength(1)
  })

  test('lines and bands with one place reach from side to side', () => {
    expect(svg).toMatch(/class="centre" d="M62 [\d.]+L666 [\d.]+"/)
    expect(svg).toMatch(/class="band" d="M62 [\d.]+L666 [\d.]+L666 [\d.]+L62 [\d.]+Z"/)
    expect(svg).toContain('>upper limit</text>')
  })

  test('dates stand along the axis, and what people typed is escaped', () => {
    expect(svg).toContain('>2024-07</text>')
    expect(svg).toContain('A &lt;chart&gt;')
  })
})

describe('marks of dates', () => {
  const room = { from: 0, to: 600, labels: 6 }

  test.each([
    ['2024-03-01', '2024-03-09', 10, '2024-03-01'.length],
    ['2024-03-01', '2026-03-09', 8, '2024-07'.length],
    ['1990-03-01', '2026-03-09', 8, '1990'.length],
  ])('%s to %s are at most a few and rise', (from, to, most, length) => {
    const { ticks, low, high } = layDates([dayOf(from), dayOf(to)], room)
    expect(ticks.length).toBeGreaterThan(1)
    expect(ticks.length).toBeLessThanOrEqual(most)
    for (const t of ticks) {
      expect(t.value >= low && t.value <= high).toBe(true)
      expect(t.label).toHaveLength(length)
    }
  })
})
