import { describe, expect, test } from 'vitest'
import { type Line, type LinePlot, linePlot, type Panel } from './line-plot.ts'

const ramp = (scale: number, n = 5) => Array.from({ length: n }, (_, i) => ({ x: i, y: scale * (i + 1) }))

const line = (more: Partial<Line> = {}): Line => ({ series: 0, points: ramp(1e-3), draw: 'both', ...more })

const plot = (more: Partial<Panel> = {}, ...panels: readonly Panel[]): LinePlot => ({
  title: 'A curve <1>',
  desc: 'd',
  panels: [
    {
      x: { symbol: 'V_F', name: 'forward voltage', unit: 'V', kind: 'linear' },
      y: { symbol: 'I_F', name: 'forward current', unit: 'A', kind: 'linear' },
      lines: [line()],
      ...more,
    },
    ...panels,
  ],
})

/** Places of a path: `M1 2L3 4`. */
const places = (d: string): readonly (readonly [number, number])[] =>
  [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])])

const pathsOf = (svg: string, kind: string): readonly string[] =>
  [...svg.matchAll(new RegExp(`<path class="${kind} [^"]*" d="([^"]*)"`, 'g'))].map((m) => m[1]!)

describe('a line plot', () => {
  test('draws a straight line straight, with a mark at each point, between named axes', () => {
    const svg = linePlot(plot())
    const at = places(pathsOf(svg, 'line')[0]!)
    expect(at).toHaveLength(5)
    for (let i = 2; i < at.length; i++) {
      const rise = (k: number): number => (at[k]![1] - at[k - 1]![1]) / (at[k]![0] - at[k - 1]![0])
      // places are rounded to a tenth of a pixel
      expect(Math.abs(rise(i) - rise(1))).toBeLessThan(0.003)
    }
    expect(pathsOf(svg, 'point')[0]!.match(/M/g)).toHaveLength(5)
    expect(svg).toContain('Forward voltage <tspan')
    expect(svg).toContain('<title>A curve &lt;1&gt;</title>')
  })

  test('on a logarithmic axis draws a straight line through what grows by a factor, and leaves out what is not above 0', () => {
    const points = [{ x: -1, y: 0 }, ...[0, 1, 2, 3].map((x) => ({ x, y: 10 ** x }))]
    const y = { symbol: 'I', name: 'current', unit: 'A', kind: 'log' } as const
    const at = places(pathsOf(linePlot(plot({ y, lines: [line({ points })] })), 'line')[0]!)
    expect(at).toHaveLength(4)
    const steps = at.slice(1).map(([, v], i) => v - at[i]![1])
    for (const s of steps) expect(Math.abs(s - steps[0]!)).toBeLessThan(0.25)
  })

  test('fills what lies between the ends of an interval', () => {
    const swaths = [
      {
        series: 1,
        points: [
          { x: 0, low: 1e-3, high: 2e-3 },
          { x: 4, low: 4e-3, high: 5e-3 },
        ],
      },
    ]
    const [d] = pathsOf(linePlot(plot({ swaths })), 'swath')
    const at = places(d!)
    expect(at).toHaveLength(4)
    expect(d!.endsWith('Z')).toBe(true)
    expect(at[0]![1]).toBeLessThan(at[3]![1])
  })

  test('writes steps at the ends of lines, and none over another', () => {
    const lines = [1e-3, 1.0001e-3, 3e-3].map((s, i) => line({ points: ramp(s), label: `I_B ${i} uA` }))
    const svg = linePlot(plot({ lines }))
    const tags = [...svg.matchAll(/class="tag"[^>]*>(.*?)<\/text>/g)].map((m) =>
      m[1]!.replaceAll(/<[^>]*>|\u200b/g, ''),
    )
    expect(tags).toEqual(['IB 0 uA', 'IB 2 uA'])
  })

  test('gives every series another colour, and another shape while there are shapes', () => {
    const lines = [0, 1, 2, 3, 4, 5].map((series) =>
      line({ series, points: ramp(1e-3 * (series + 1), 1), draw: 'points' }),
    )
    const shapes = pathsOf(linePlot(plot({ lines })), 'point').map((d) => d.replace(/^M[^m]*/, ''))
    expect(new Set(shapes).size).toBe(6)
  })

  test.each([320, 680, 1200])(
    'keeps to %d px, all panels under each other with the same place for the same x',
    (width) => {
      const below = { ...plot().panels[0]!, lines: [line()], height: 130 }
      const key = Array.from({ length: 9 }, (_, i) => ({ series: i, draw: 'both' as const, label: `part number ${i}` }))
      const svg = linePlot(plot({ key, lines: [line({ label: 'V_CE 4.5 V' })] }, below), { width })
      const [first, second] = pathsOf(svg, 'line')
        .filter((d) => places(d).length === 5)
        .map(places)
      expect(first!.map(([x]) => x)).toEqual(second!.map(([x]) => x))
      for (const [, x] of svg.matchAll(/<text[^>]* x="([\d.]+)"/g)) expect(Number(x)).toBeLessThanOrEqual(width)
      expect(svg).toContain(`width="${width}"`)
    },
  )
})
