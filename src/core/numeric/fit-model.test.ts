import { describe, expect, test } from 'vitest'
import { expectDigits } from '#core/testing'
import { fitModel, type ModelFit } from './fit-model.ts'
import strd from './strd-nonlinear.ref.json'
import { strdLaws } from './strd-nonlinear.ref.ts'

type Entry = (typeof strd.sets)[number]

/**
 * Right digits reached at least from both starts: parameters, their standard deviations, residual sum of squares.
 * Lanczos1 has residuals of 1e-13: the rounding of doubles in the law leaves them three digits.
 */
const reached: Readonly<Record<string, readonly [parameters: number, sd: number, rss: number]>> = {
  Bennett5: [8, 8, 10],
  BoxBOD: [10, 10, 10],
  Chwirut1: [10, 10, 10],
  Chwirut2: [10, 10, 10],
  DanWood: [10, 10, 10],
  ENSO: [8, 9, 10],
  Eckerle4: [9, 8, 10],
  Gauss1: [10, 10, 10],
  Gauss2: [10, 10, 10],
  Gauss3: [10, 10, 10],
  Hahn1: [9, 9, 10],
  Kirby2: [10, 10, 10],
  Lanczos1: [10, 2.5, 2.5],
  Lanczos2: [9, 8, 9],
  Lanczos3: [8, 8, 10],
  MGH09: [8, 8, 10],
  MGH10: [10, 9, 10],
  MGH17: [9, 9, 10],
  Misra1a: [10, 10, 10],
  Misra1b: [10, 10, 10],
  Misra1c: [10, 10, 10],
  Misra1d: [10, 10, 10],
  Nelson: [9, 9, 10],
  Rat42: [10, 10, 10],
  Rat43: [10, 10, 10],
  Roszman1: [9, 9, 10],
  Thurber: [9, 9, 10],
}

/** Enzyme kinetics, whose rates and concentrations are all positive: fitted by their logarithms. */
const positive: ReadonlySet<string> = new Set(['MGH09'])

function fitSet(set: Entry, start: readonly number[]): ModelFit {
  const columns: readonly number[][] = Array.isArray(set.x) ? [set.x] : Object.values(set.x)
  const rows = set.y.map((_, i) => columns.map((c) => c[i]!))
  const law = strdLaws[set.name]!
  const y = set.name === 'Nelson' ? set.y.map(Math.log) : set.y
  const evaluate = (b: Float64Array, values: Float64Array): void => {
    for (const [i, x] of rows.entries()) values[i] = law(b, x)
  }
  return fitModel(
    { evaluate },
    y,
    start.map((b, j) => ({ name: `b${j + 1}`, start: b, scale: positive.has(set.name) ? 'log' : 'linear' })),
  )
}

test('all twenty-seven sets are here', () =>
  expect(strd.sets.map((s) => s.name).sort()).toEqual(Object.keys(reached).sort()))

describe.each(strd.sets.flatMap((s) => s.starts.map((start, k) => [s.name, k + 1, s, start] as const)))(
  'NIST StRD nonlinear regression, %s from start %i',
  (name, _, set, start) => {
    const fit = fitSet(set, start)
    const [parameters, sd, rss] = reached[name]!
    test(`parameters to ${parameters} digits`, () => {
      for (const [i, c] of set.certified.params.entries()) expectDigits(fit.values[i]!, c, parameters, `b${i + 1}`)
    })
    test(`standard deviations to ${sd} digits, sum of squares to ${rss}`, () => {
      for (const [i, c] of set.certified.sd.entries()) expectDigits(fit.sd[i]!, c, sd, `sd of b${i + 1}`)
      expectDigits(fit.squares, set.certified.rss, rss, 'sum of squares')
    })
  },
)

const line = (x: readonly number[]) => ({
  evaluate: (p: Float64Array, values: Float64Array): void => {
    for (const [i, xi] of x.entries()) values[i] = p[0]! + p[1]! * xi
  },
})

test('bounds hold, and a parameter at one is held with that reason', () => {
  const x = [0, 1, 2, 3]
  const y = x.map((xi) => 1 - 0.5 * xi)
  const fit = fitModel(line(x), y, [
    { name: 'a', start: 0 },
    { name: 'b', start: 1, low: 0 },
  ])
  expect(fit.values[1]).toBe(0)
  expect(fit.values[0]).toBeCloseTo(0.25, 10)
  expect(fit.held).toEqual([{ index: 1, why: 'bound', from: [] }])
})

test('parameters that cannot be told apart are named', () => {
  const x = [0, 1, 2, 3]
  const evaluate = (p: Float64Array, values: Float64Array): void => {
    for (const [i, xi] of x.entries()) values[i] = p[0]! * p[1]! * xi + p[2]!
  }
  const start = [1, 2, 0.5].map((s, j) => ({ name: `p${j}`, start: s }))
  const fit = fitModel({ evaluate }, [1, 3, 5, 7.1], start)
  expect(fit.held).toHaveLength(1)
  expect(fit.held[0]!.why).toBe('others')
  expect([fit.held[0]!.index, ...fit.held[0]!.from].sort()).toEqual([0, 1])
})

test.each(['huber', 'tukey'] as const)('one wild reading does not move the fit with %s', (robust) => {
  const x = Array.from({ length: 20 }, (_, i) => i)
  const y = x.map((xi) => 2 + 3 * xi + 0.01 * Math.sin(7 * xi))
  y[12] = 400
  const start = [
    { name: 'a', start: 0 },
    { name: 'b', start: 1 },
  ]
  const fit = fitModel(line(x), y, start, { robust })
  expect(fit.values[1]).toBeCloseTo(3, 2)
  expect(fit.weights[12]).toBeLessThan(1e-3)
})

test('it tells of its steps and stops when asked', () => {
  let told = 0
  const y = [1, 3, 5, 7]
  const start = [
    { name: 'a', start: 90 },
    { name: 'b', start: -50 },
  ]
  const fit = fitModel(line([0, 1, 2, 3]), y, start, { onStep: () => ++told < 1 })
  expect(told).toBe(1)
  expect(fit.ended).toBe('stopped')
})
