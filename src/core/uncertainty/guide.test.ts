import { describe, expect, test } from 'vitest'
import { derive, exact, formula, leaf, standardUncertainty, term } from '#core/quantity'
import { expectDigits, expectPrinted, expectRelative } from '#core/testing'
import { analysisOfVariance } from './analysis-of-variance.ts'
import { calibrationLine } from './calibration-line.ts'
import { coverage, coverageFactor, effectiveDof } from './coverage.ts'
import guide from './guide.ref.json'
import { jointMeans, meanOfReadings, pooledSpread } from './readings.ts'

const source = { title: 'JCGM 100:2008' }

describe('JCGM 100:2008, 4.4.3: twenty readings of a temperature', () => {
  const { data, computed, published } = guide['4.4.3']
  const mean = meanOfReadings({ values: data, unit: 'degC', cause: 'scatter', what: 'temperature' })
  test('mean and its uncertainty', () => {
    expectDigits(mean.value, computed.mean, 14)
    expectDigits(standardUncertainty(mean), computed.s_mean, 14)
    expectPrinted(standardUncertainty(mean), published.s_mean.toFixed(3))
    expect(effectiveDof(mean)).toBeCloseTo(19, 12)
  })
})

describe('JCGM 100:2008, G.4.1: effective degrees of freedom', () => {
  const g = guide['G.4.1']
  const product = leaf(
    100,
    '1',
    { kind: 'assumed', what: 'Y', why: 'example' },
    g.relative_u_percent.map((u, i) => term(`x${i}`, { label: `X${i}`, u, dof: g.nu[i]! })),
  )
  test('effective degrees of freedom, factor and expanded uncertainty', () => {
    const c = coverage(product)
    expectDigits(standardUncertainty(product), g.computed.uc_percent, 14)
    expectDigits(c.dof, g.computed.nu_eff, 12)
    expectPrinted(c.factor, g.published.t95.toFixed(2))
    expectRelative(c.expanded, g.computed.U95_percent, 1e-5)
    expectPrinted(c.expanded, g.published.U95_percent.toFixed(1))
  })
})

describe('JCGM 100:2008, H.1: an end gauge', () => {
  const h1 = guide['H.1']
  const length = formula({
    id: 'guide/end-gauge',
    version: 1,
    text: 'l = l_S + d - l_S (da t + a_S dt)',
    unit: 'm',
    inputs: { ls: 'm', d: 'm', alphaS: '1/K', theta: 'K', dAlpha: '1/K', dTheta: 'K' },
    symbols: { ls: 'l_S', d: 'd', alphaS: 'a_S', theta: 't', dAlpha: 'da', dTheta: 'dt' },
    source,
    evaluate: ({ ls, d, alphaS, theta, dAlpha, dTheta }) => ls + d - ls * (dAlpha * theta + alphaS * dTheta),
    partials: ({ ls, alphaS, theta, dAlpha, dTheta }) => ({
      ls: 1 - (dAlpha * theta + alphaS * dTheta),
      d: 1,
      alphaS: -ls * dTheta,
      theta: -ls * dAlpha,
      dAlpha: -ls * theta,
      dTheta: -ls * alphaS,
    }),
    domain: {
      ls: [0.01, 0.1],
      d: [1e-7, 1e-6],
      alphaS: [1e-6, 1e-4],
      theta: [-1, 1],
      dAlpha: [-1e-6, 1e-6],
      dTheta: [-1, 1],
    },
  })
  const nm = 1e-9
  const { ls, d, alphas, theta, dalpha, dtheta } = h1.inputs
  const input = <U extends '1/K' | 'K' | 'm'>(
    cause: string,
    unit: U,
    x: { value: number; u: number; nu: number | null },
    scale = 1,
  ) =>
    leaf(x.value * scale, unit, { kind: 'stated', what: cause, source }, [
      term(cause, { label: cause, u: x.u * scale, ...(x.nu === null ? {} : { dof: x.nu }) }),
    ])
  const l = derive(length, {
    ls: input('certificate', 'm', ls, nm),
    d: input('comparison', 'm', d, nm),
    alphaS: input('expansion of the standard', '1/K', alphas),
    theta: input('temperature', 'K', theta),
    dAlpha: input('difference of expansion', '1/K', dalpha),
    dTheta: input('difference of temperature', 'K', dtheta),
  })
  test('length, uncertainty and degrees of freedom', () => {
    expect(Math.round(l.value / nm)).toBe(h1.published.l)
    expectDigits(standardUncertainty(l) / nm, h1.computed.uc, 12)
    expectDigits(effectiveDof(l), h1.computed.nu_eff, 6)
    expectPrinted(effectiveDof(l), h1.published.nu_eff.toFixed(1))
  })
  test('expanded at 99 %: the guide cuts the degrees of freedom to 16, we do not', () => {
    expectPrinted(coverageFactor(16, 0.99), h1.published.k99.toFixed(2))
    expectDigits(coverageFactor(16, 0.99), h1.computed.k99_at_16, 12)
    expectRelative(coverage(l, 0.99).factor, h1.computed.k99_at_interpolated_nu, 2e-3)
    expect(Math.abs(coverage(l, 0.99).expanded / nm - h1.published.U99)).toBeLessThan(1)
  })
  test('the comparison: five readings with a spread known from 25, and two causes of the comparator', () => {
    const readings = meanOfReadings(
      { values: [213, 214, 215, 216, 217], unit: '1', cause: 'a', what: 'd' },
      { sd: 13, dof: 24 },
    )
    const both = {
      ...readings,
      budget: [
        ...readings.budget,
        term('b', { label: '', u: 10 / 2.570582, dof: 5 }),
        term('c', { label: '', u: 20 / 3, dof: 8 }),
      ],
    }
    expect(readings.value).toBe(215)
    expectPrinted(standardUncertainty(both), h1.published.u_d.toFixed(1))
    expectPrinted(effectiveDof(both), h1.published.nu_eff_d.toFixed(1))
  })
})

describe('what cannot be reduced is refused', () => {
  const series = (values: number[]) => ({ values, unit: 'V', cause: 'c', what: 'V_BE' }) as const
  test.each([
    ['one reading', () => meanOfReadings(series([1])), 'count of readings of V_BE is 1; it must be at least 2.'],
    ['a reading that is no number', () => meanOfReadings(series([1, Number.NaN])), 'reading of V_BE is NaN'],
    [
      'series of unequal length',
      () => jointMeans({ a: series([1, 2]), b: series([1, 2, 3]) }),
      'they were taken together',
    ],
    ['no degrees of freedom', () => pooledSpread([{ sd: 1, dof: 0 }]), 'degrees of freedom is 0'],
    ['one group', () => analysisOfVariance([{ count: 3, mean: 1, sd: 1 }]), 'count of groups is 1'],
    [
      'groups of unequal size',
      () =>
        analysisOfVariance([
          { count: 3, mean: 1, sd: 1 },
          { count: 2, mean: 1, sd: 1 },
        ]),
      'as in the first',
    ],
    [
      'two points for a line',
      () => calibrationLine({ x: [1, 2], y: [1, 2], at: 0, unit: 'V', slopeUnit: '1', name: 'n', what: 'meter' }),
      'count of points of meter is 2',
    ],
    ['a certain level of confidence', () => coverageFactor(5, 1), 'level of confidence is 1'],
  ])('%s', (_, act, message) => expect(act).toThrow(message))
})

test('readings that never differ go together with nothing', () => {
  const m = jointMeans({
    a: { values: [1, 1, 1], unit: 'V', cause: 'a', what: 'a' },
    b: { values: [1, 2, 3], unit: 'V', cause: 'b', what: 'b' },
  })
  expect(m.a.correlations).toEqual([{ a: 'a', b: 'b', r: 0 }])
})

test('a certain value has infinitely many degrees of freedom and no width', () => {
  const c = coverage(exact(5, 'V', 'setting'))
  expect([c.low, c.high, c.dof]).toEqual([5, 5, Number.POSITIVE_INFINITY])
})
