import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { curveExampleCsv, curvesOf, type FitKind, fitCurve } from '#core/fit'
import { expectRelative } from '#core/testing'
import { compared } from './compare.ts'
import reference from './fitted.ref.json'
import { fittedSweeps } from './fitted.ts'
import { curveKindOf } from './kind.ts'
import { resampled, smoothed } from './resample.ts'
import { residualSweeps, scatterBand } from './residuals.ts'
import type { Sweep } from './sweep.ts'
import { firstView, sweepsFor, sweepsToFit, type View, viewsOf } from './view.ts'

const example = (kind: FitKind) => curvesOf(curveExampleCsv[kind], kind, { file: kind })[0]!

/** A sweep as one line: what against what, what was held, how many points. */
const line = (s: Sweep): string =>
  `${s.y}(${s.x})${s.at === undefined ? '' : ` at ${s.at.symbol} ${s.at.value}`}: ${s.points.length}`

describe('what a view shows', () => {
  const shown: readonly (readonly [FitKind, View, readonly string[]])[] = [
    ['diode', 'log', ['I_F(V_F): 25']],
    ['bjt', 'gummel', ['I_C(V_BE) at V_CE 4.5: 18', 'I_B(V_BE) at V_CE 4.5: 18']],
    ['bjt', 'gain', ['h_FE(I_C) at V_CE 4.5: 18']],
    ['bjt', 'output', ['I_C(V_CE) at I_B 0.00001: 9', 'I_C(V_CE) at I_B 0.00003: 9']],
    ['bjt', 'lin', ['I_C(V_BE) at V_CE 4.5: 18', 'I_C(V_CE) at I_B 0.00001: 9', 'I_C(V_CE) at I_B 0.00003: 9']],
    ['jfet', 'lin', ['I_D(V_GS) at V_DS 5: 11', 'I_D(V_GS) at V_DS 9: 11']],
  ]
  test.each(shown)('of a %s, %s', (kind, view, lines) =>
    expect(sweepsFor(example(kind), view).map(line)).toEqual(lines),
  )

  test.each([
    ['diode', 'log'],
    ['bjt', 'gummel'],
    ['jfet', 'lin'],
    ['mosfet', 'lin'],
  ] as const)('first of a %s is %s', (kind, view) => expect(firstView(example(kind))).toBe(view))

  test('says what a curve can show where it cannot show what was asked', () => {
    expect(viewsOf(example('diode'))).toEqual(['lin', 'log'])
    expect(() => sweepsFor(example('diode'), 'gummel')).toThrow(/diode: "gummel" is a view .*It shows lin, log\./)
  })

  test('a family read at jittering base currents is one sweep for each step', () => {
    const rows = [10.02, 9.97, 10.1].flatMap((ib, k) => [`${k + 1},${ib}e-6,1e-3`, `${k + 1},${2 * ib}e-6,2e-3`])
    const curve = curvesOf(`V_CE,I_B,I_C\n${rows.join('\n')}\n`, 'bjt')[0]!
    expect(sweepsFor(curve, 'output').map((s) => s.points.length)).toEqual([3, 3])
  })

  test('a diode read below zero shows what is reverse on its own axis', () => {
    const curve = curvesOf('V_F,I_F\n-10,-2e-9\n-5,-1e-9\n0,0\n0.5,1e-6\n0.6,1e-5\n', 'diode')[0]!
    expect(sweepsFor(curve, 'log').map(line)).toEqual(['I_F(V_F): 2', 'I_R(V_R): 2'])
    expect(sweepsFor(curve, 'log')[1]!.points.map((p) => [p.x, p.y])).toEqual([
      [5, 1e-9],
      [10, 2e-9],
    ])
    expect(sweepsFor(curve, 'lin').map(line)).toEqual(['I_F(V_F): 5'])
  })

  test('the gain carries what its two currents are uncertain by', () => {
    const curve = curvesOf('V_BE,I_B,u(I_B),I_C,u(I_C)\n0.6,1e-6,3e-8,1e-4,4e-6\n0.65,1e-5,1e-8,1e-3,1e-6\n', 'bjt')[0]!
    // 3 % and 4 % taken together, by hand: 5 % of 100
    expect(sweepsFor(curve, 'gain')[0]!.points[0]!.u).toBeCloseTo(5, 12)
  })
})

describe('kinds by their columns', () => {
  test.each(['diode', 'bjt', 'jfet'] as const)('%s', (kind) =>
    expect(curveKindOf(curveExampleCsv[kind], 'x')).toBe(kind),
  )
  test('mapped', () => expect(curveKindOf('Ch1,Ch2\n1,2\n', 'x', { Ch1: 'V_BE' })).toBe('bjt'))
  test('refused', () => expect(() => curveKindOf('a,b\n1,2\n', 'x.csv')).toThrow(/x\.csv: "a, b" are no columns/))
})

/** An exact exponential of 10 mV steps: ln I is a straight line, so any curve through its points is exact. */
const exponential = (name: string, first: number, scale: number) => ({
  name,
  sweeps: [
    {
      x: 'V_F',
      y: 'I_F',
      points: Array.from({ length: 20 }, (_, i) => {
        const x = first + i / 100
        return { x, y: scale * Math.exp(x / 0.05) }
      }),
    } satisfies Sweep,
  ],
})

describe('resampling', () => {
  const sweep = exponential('one', 0.4, 1e-9).sweeps[0]!
  test.each(['linear', 'log'] as const)('an exponential is the same between its points, %s', (spacing) => {
    const made = resampled(sweep, { points: 37, spacing })
    expect(made.points).toHaveLength(37)
    for (const { x, y } of made.points) expect(y / (1e-9 * Math.exp(x / 0.05))).toBeCloseTo(1, 12)
    const [a, b, c] = made.points.map((p) => p.x) as [number, number, number]
    if (spacing === 'log') expect(b / a).toBeCloseTo(c / b, 12)
    else expect(b - a).toBeCloseTo(c - b, 12)
  })

  test('never goes beyond what was read', () => {
    const outside = (): Sweep => resampled(sweep, { points: 5, spacing: 'linear', from: 0.3 })
    expect(outside).toThrow(
      'The forward voltage V_F that was asked for is 300 mV; it must be between 400 mV and 590 mV: I_F was read there, and nothing is drawn on beyond readings.',
    )
    expect(outside).toThrow(FaultError)
  })

  test.each([
    [{ points: 5, spacing: 'log', from: 0 }, /lower end of a logarithmic grid is 0/],
    [{ points: 5, spacing: 'linear', from: 0.5, to: 0.45 }, /upper end of the grid is 0\.45; it must be above/],
  ] as const)('%j is refused', (grid, sentence) => expect(() => resampled(sweep, grid)).toThrow(sentence))

  test('readings at one place count as their mean, of the logarithms', () => {
    const twice: Sweep = {
      x: 'V_F',
      y: 'I_F',
      points: [
        { x: 0.4, y: 1e-6 },
        { x: 0.5, y: 1e-5 },
        { x: 0.5, y: 4e-5 },
      ],
    }
    expect(smoothed(twice).at(0.5)).toBeCloseTo(2e-5, 15)
  })
})

describe('comparing', () => {
  test('two exponentials differ by their factor everywhere they share', () => {
    const found = compared([exponential('a', 0.4, 1e-9), exponential('b', 0.45, 1.2e-9)], {
      points: 11,
      spacing: 'linear',
    })
    const [one] = found.comparisons
    expect(found.notes).toEqual([])
    expect(one!.places[0]).toBe(0.45)
    expect(one!.places.at(-1)).toBeCloseTo(0.59, 12)
    for (const r of one!.others[0]!.relative!) expect(r).toBeCloseTo(0.2, 10)
    expect(one!.others[0]!.rms).toBeCloseTo(0.2, 10)
  })

  test('says what has no partner, or shares no place', () => {
    const apart = compared([exponential('a', 0.4, 1e-9), exponential('b', 0.9, 1e-9)], { points: 5, spacing: 'linear' })
    expect(apart.comparisons).toEqual([])
    expect(apart.notes).toEqual(['b has nothing to hold against I_F of a: they were read at different places.'])
  })
})

describe('a fitted law along its sweeps', () => {
  const curve = example('diode')
  const fit = fitCurve(curve, { temperatureC: 23 })
  test.each(reference.points)(`value and 95 % interval at $v V, by ${reference.source}`, ({ v, i, half }) => {
    const [sweep] = fittedSweeps(curve, fit, sweepsToFit(curve), 49)
    const point = sweep!.points.find((p) => Math.abs(p.x - v) < 1e-9)!
    // lmfit stops at 1e-8 of the sum of squares, and takes its slopes by differences
    expect(Math.abs(point.y / i - 1)).toBeLessThan(1e-5)
    expect(Math.abs(Math.log(point.high! / point.y) / (half / i) - 1)).toBeLessThan(0.01)
    expect(point.y / point.low!).toBeCloseTo(point.high! / point.y, 12)
  })

  test('its residuals are those of the fit, and 95 % of them lie in the band', () => {
    const [left] = residualSweeps(fit, sweepsToFit(curve))
    expect(left!.points).toHaveLength(25)
    for (const [k, { relative }] of left!.points.entries()) {
      const { measured, fitted } = fit.residuals[k]!
      expect(relative).toBeCloseTo(measured / fitted - 1, 14)
    }
    const inside = left!.points.filter((p) => Math.abs(p.relative) < scatterBand(fit)!)
    expect(inside.length).toBeGreaterThanOrEqual(23)
  })

  test.each(['bjt', 'jfet', 'mosfet'] as const)('of a %s runs through what was read', (kind) => {
    const part = example(kind)
    const sweeps = sweepsToFit(part)
    const laws = fittedSweeps(part, fitCurve(part, { temperatureC: 23 }), sweeps)
    expect(laws.map((l) => [l.x, l.y, l.at])).toEqual(sweeps.map((s) => [s.x, s.y, s.at]))
    for (const [k, law] of laws.entries()) {
      expect(law.points).toHaveLength(81)
      for (const p of law.points) expect(p.low! < p.y && p.y < p.high!).toBe(true)
      // the examples carry scatter of 0.5 %; six times that is beyond doubt
      for (const end of [0, -1])
        expect(Math.abs(law.points.at(end)!.y / sweeps[k]!.points.at(end)!.y - 1)).toBeLessThan(0.03)
    }
  })

  test('of a diode with breakdown runs through both its sides', () => {
    const rows = [
      'V_R,I_R,V_F,I_F',
      ...[0.4, 0.45, 0.5, 0.55, 0.6, 0.65].map((v) => `,,${v},${1e-9 * Math.exp(v / 0.04)}`),
    ]
    const back = [1, 2, 3, 4, 4.9, 5, 5.05, 5.1].map(
      (v) => `${v},${1e-9 + v / 1e9 + 1e-3 * Math.exp((v - 5.1) / 0.03)},,`,
    )
    const zener = curvesOf(`${[...rows, ...back].join('\n')}\n`, 'diode')[0]!
    const found = fitCurve(zener)
    const laws = fittedSweeps(zener, found, sweepsToFit(zener))
    expect(laws.map((l) => l.y)).toEqual(['I_F', 'I_R'])
    for (const law of laws) expect(law.points.length).toBeGreaterThan(60)
    expectRelative(laws[1]!.points.at(-1)!.y, 1e-3, 1e-3)
  })
})
