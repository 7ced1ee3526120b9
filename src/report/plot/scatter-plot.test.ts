import { describe, expect, test } from 'vitest'
import { type ScatterPlot, type ScatterPoint, scatterPlot } from './scatter-plot.ts'

const span = (value: number) => ({ value, low: value * 0.9, high: value * 1.1 })

const point = (label: string, x: number, y: number): ScatterPoint => ({
  label,
  x: span(x),
  y: span(y),
  outcome: 'conforms',
})

const plot = (points: readonly ScatterPoint[]): ScatterPlot => ({
  title: 'Gain against leakage',
  desc: 'd',
  x: { symbol: 'I_CEO', name: 'leakage, base open', unit: 'A', kind: 'log' },
  y: { symbol: 'h_FE', name: 'current gain', unit: '1', kind: 'log' },
  points,
})

const tagBoxes = (svg: string) =>
  [...svg.matchAll(/<text class="tag" x="([\d.]+)" y="([\d.]+)">([^<]*)</g)].map((m) => ({
    x: Number(m[1]),
    y: Number(m[2]),
    width: m[3]!.length * 6,
  }))

describe('a scatter', () => {
  const points = [point('A&B', 1e-5, 80), point('C', 3e-5, 120), point('D', 2e-4, 60)]
  const svg = scatterPlot(plot(points))

  test('each part has a shape, a cross of intervals and its tag', () => {
    expect(svg.match(/class="o-conforms"/g)).toHaveLength(3)
    expect(svg.match(/class="interval thin"/g)).toHaveLength(3)
    expect(svg).toContain('>A&amp;B</text>')
  })

  test('both axes say what they are', () => {
    expect(svg).toContain('Leakage, base open <tspan')
    expect(svg).toContain('Current gain <tspan')
  })

  test('more gain is higher, more leakage is further right', () => {
    const at = [...svg.matchAll(/translate\(([\d.]+) ([\d.]+)\)/g)].map((m) => [Number(m[1]), Number(m[2])] as const)
    expect(at[1]![0]).toBeGreaterThan(at[0]![0])
    expect(at[1]![1]).toBeLessThan(at[0]![1])
  })
})

test('tags do not lie on each other; those without room are left out', () => {
  const crowd = Array.from({ length: 50 }, (_, i) => point(`part-${i}`, 1e-5 * (1 + (i % 7) / 20), 80 + (i % 11)))
  const boxes = tagBoxes(scatterPlot(plot(crowd)))
  expect(boxes.length).toBeGreaterThan(3)
  expect(boxes.length).toBeLessThan(50)
  for (const [i, a] of boxes.entries())
    for (const b of boxes.slice(i + 1))
      expect(a.x < b.x + b.width && b.x < a.x + a.width && Math.abs(a.y - b.y) < 11).toBe(false)
})

test('thousands of parts are dots in one path', () => {
  const svg = scatterPlot(plot(Array.from({ length: 5000 }, (_, i) => point(`p${i}`, 1e-6 * (i + 1), 50 + (i % 90)))))
  expect(svg.match(/class="dots/g)).toHaveLength(1)
  expect(svg.length).toBeLessThan(200_000)
})
