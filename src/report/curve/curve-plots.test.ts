import { describe, expect, test } from 'vitest'
import { compared, sweepsFor, type View } from '#core/curve'
import { curveExampleCsv, curvesOf, type FitKind, fitCurve } from '#core/fit'
import { comparisonPlot, curvePlot, fitPlot } from '#report/curve'
import { linePlot, pictureFile } from '#report/plot'
import { outsideReach, pageFaults } from '#report/testing'
import { contrast, darkPalette, lightPalette } from '#report/typeset'

const example = (kind: FitKind, name = `${kind}.csv`) => curvesOf(curveExampleCsv[kind], kind, { file: name })[0]!

const named = (kind: FitKind, view: View, name?: string) => {
  const curve = example(kind, name)
  return { name: curve.name, sweeps: sweepsFor(curve, view) }
}

/** A panel as one line: its axes with their kinds, and how many lines it has. */
const said = (plot: ReturnType<typeof curvePlot>): readonly string[] =>
  plot.panels.map((p) => `${p.y.symbol} ${p.y.kind} against ${p.x.symbol} ${p.x.kind}: ${p.lines.length}`)

describe('curves as people look at them', () => {
  test.each([
    ['diode', 'lin', ['I_F linear against V_F linear: 1']],
    ['diode', 'log', ['I_F log against V_F linear: 1']],
    ['bjt', 'gummel', ['I log against V_BE linear: 2']],
    ['bjt', 'gain', ['h_FE linear against I_C log: 1']],
    ['bjt', 'output', ['I_C linear against V_CE linear: 2']],
    ['bjt', 'log', ['I_C log against V_BE linear: 1', 'I_C log against V_CE linear: 2']],
    ['mosfet', 'lin', ['I_D linear against V_GS linear: 2']],
  ] as const)('%s as %s', (kind, view, panels) => {
    const plot = curvePlot([named(kind, view)], view)
    expect(said(plot)).toEqual(panels)
    const svg = linePlot(plot)
    expect(pageFaults(svg)).toEqual([])
    expect(svg).not.toContain('NaN')
  })

  test('several curves have a colour each and the second current dashed, and the key says so', () => {
    const plot = curvePlot([named('bjt', 'gummel', 'Q1'), named('bjt', 'gummel', 'Q2')], 'gummel')
    expect(plot.panels[0]!.lines.map((l) => [l.series, l.isDashed === true])).toEqual([
      [0, false],
      [0, true],
      [1, false],
      [1, true],
    ])
    expect(plot.panels[0]!.key!.map((k) => k.label)).toEqual(['Q1', 'Q2', 'I_C', 'I_B'])
  })

  test('a comparison has the difference from the first below, in percent', () => {
    const curves = [named('diode', 'log', 'D1'), named('diode', 'log', 'D2')]
    const found = compared(curves, { points: 20, spacing: 'linear' })
    const below = comparisonPlot(curves, found, 'log').panels.at(-1)!
    expect(below.y.name).toBe('difference in forward current, %')
    expect(below.lines[0]!.points.map((p) => p.y)).toEqual(Array(20).fill(0))
    expect(below.reach).toEqual([0.2, 0.8])
  })

  test.each(['diode', 'bjt', 'jfet', 'mosfet'] as const)(
    'a fit of a %s has every reading, the law, its interval, and what is left over',
    (kind) => {
      const curve = example(kind)
      const fit = fitCurve(curve, { temperatureC: 23 })
      const plot = fitPlot(curve, fit)
      const left = plot.panels.filter((p) => p.height === 130)
      expect(left.length * 2).toBe(plot.panels.length)
      expect(left.flatMap((p) => p.lines.flatMap((l) => l.points))).toHaveLength(fit.residuals.length)
      for (const p of plot.panels) {
        expect(p.swaths!.length).toBeGreaterThan(0)
        for (const s of p.swaths!) for (const q of s.points) expect(q.low).toBeLessThan(q.high)
      }
      for (const p of left)
        for (const s of p.swaths!) for (const q of s.points) expect(q.low < 0 && q.high > 0).toBe(true)
      expect(linePlot(plot)).not.toContain('NaN')
    },
  )
})

describe('a drawing as a file', () => {
  const svg = linePlot(curvePlot([named('bjt', 'gummel')], 'gummel'))

  test('is whole, asks nothing of any address, and its colours stand in it', () => {
    const file = pictureFile(svg)
    expect(file).toContain('xmlns="http://www.w3.org/2000/svg"')
    expect(pageFaults(file)).toEqual([])
    // the name space is a name, and nothing asks for it
    expect(outsideReach(file.replace(' xmlns="http://www.w3.org/2000/svg"', ''))).toEqual([])
    expect(file).not.toContain('var(')
    expect(file.match(/<title>/g)).toHaveLength(1)
  })

  test('on a screen it is light and, where the screen is, dark', () => {
    const [light, dark] = pictureFile(svg).split('@media (prefers-color-scheme:dark)') as [string, string]
    expect(light).toContain(`fill:${lightPalette.paper}`)
    expect(light).not.toContain(darkPalette.paper)
    expect(dark).toContain(`fill:${darkPalette.paper}`)
    expect(pictureFile(svg, 'dark')).not.toContain(lightPalette.paper)
    expect(pictureFile(svg, 'print')).toContain('fill:#ffffff')
  })

  test('every series stands out from the paper, WCAG 2.2, 1.4.11', () => {
    for (const p of [lightPalette, darkPalette])
      for (const c of ['ink', 'accent', 'undecided', 'fails', 'conforms', 'apart'] as const)
        expect(contrast(p[c], p.paper)).toBeGreaterThanOrEqual(3)
  })
})
