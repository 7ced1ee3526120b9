import { describe, expect, test } from 'vitest'
import { correlation, derive, exact, formula, leaf, standardUncertainty, term } from '#core/quantity'
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

describe('JCGM 100:2008, H.2: resistance and reactance from readings taken together', () => {
  const h2 = guide['H.2']
  const means = jointMeans({
    v: { values: h2.observations.V, unit: 'V', cause: 'V', what: 'V' },
    i: { values: h2.observations.I, unit: 'A', cause: 'I', what: 'I' },
    phi: { values: h2.observations.phi, unit: 'rad', cause: 'phi', what: 'phi' },
  } as const)
  const part = (id: string, evaluate: (at: { v: number; i: number; phi: number }) => number) =>
    formula({
      id: `guide/${id}`,
      version: 1,
      text: `${id} = f(V, I, phi)`,
      unit: 'ohm',
      inputs: { v: 'V', i: 'A', phi: 'rad' },
      symbols: { v: 'V', i: 'I', phi: 'phi' },
      source,
      evaluate,
      domain: { v: [1, 10], i: [0.01, 0.1], phi: [0, 1.5] },
    })
  const results = [
    derive(
      part('r', ({ v, i, phi }) => (v / i) * Math.cos(phi)),
      means,
    ),
    derive(
      part('x', ({ v, i, phi }) => (v / i) * Math.sin(phi)),
      means,
    ),
    derive(
      part('z', ({ v, i }) => v / i),
      means,
    ),
  ] as const
  test('means, their uncertainties and correlations', () => {
    expectDigits(means.i.value, h2.computed.means[1]!, 14)
    for (const [k, m] of [means.v, means.i, means.phi].entries())
      expectDigits(standardUncertainty(m), h2.computed.u_means[k]!, 8.5)
    expectDigits(means.v.correlations![0]!.r, h2.computed.r_inputs[0]!, 12)
    expectDigits(means.v.correlations![1]!.r, h2.computed.r_inputs[1]!, 12)
    expectDigits(means.i.correlations![1]!.r, h2.computed.r_inputs[2]!, 12)
  })
  test('values and uncertainties of R, X and Z', () => {
    const { R, X, Z, u } = h2.computed.approach1
    for (const [k, value] of [R, X, Z].entries()) {
      expectDigits(results[k]!.value, value, 12)
      expectRelative(standardUncertainty(results[k]!), u[k]!, 1e-6)
    }
    expectPrinted(standardUncertainty(results[0]), h2.published.u_R.toFixed(3))
    expectPrinted(standardUncertainty(results[2]), h2.published.u_Z.toFixed(3))
    // the guide prints 0.295 for 0.2956
    expect(Math.abs(standardUncertainty(results[1]) - h2.published.u_X)).toBeLessThan(0.001)
  })
  test('correlations of R, X and Z', () => {
    const [r, x, z] = results
    const { r: computed } = h2.computed.approach1
    expectRelative(correlation(r, x), computed['R,X'], 1e-7)
    expectRelative(correlation(r, z), computed['R,Z'], 1e-7)
    expectRelative(correlation(x, z), computed['X,Z'], 1e-7)
  })
  test('readings taken together have the degrees of freedom of their count', () => {
    for (const q of results) expect(effectiveDof(q)).toBeCloseTo(4, 10)
  })
  test('without the correlations the uncertainties would be those of Table H.5', () => {
    for (const [k, q] of results.entries()) {
      const { correlations: _, ...alone } = q
      expectRelative(standardUncertainty(alone), h2.computed.uncorrelated.u[k]!, 1e-6)
    }
  })
})

describe('JCGM 100:2008, H.3: a straight calibration line', () => {
  const h3 = guide['H.3']
  const line = calibrationLine({
    x: h3.t,
    y: h3.b,
    at: h3.t0,
    unit: 'K',
    slopeUnit: '1',
    name: 'thermometer',
    what: 'correction',
  })
  const at = formula({
    id: 'guide/line',
    version: 1,
    text: 'b = y_1 + y_2 (t - t_0)',
    unit: 'K',
    inputs: { y1: 'K', y2: '1', t: 'degC', t0: 'degC' },
    symbols: { y1: 'y_1', y2: 'y_2', t: 't', t0: 't_0' },
    source,
    evaluate: ({ y1, y2, t, t0 }) => y1 + y2 * (t - t0),
    domain: { y1: [-1, 1], y2: [-1, 1], t: [0, 50], t0: [0, 50] },
  })
  const { computed } = h3
  test('parameters, uncertainties, correlation, scatter', () => {
    expectDigits(line.intercept.value, computed.y1, 12)
    expectDigits(line.slope.value, computed.y2, 12)
    expectDigits(standardUncertainty(line.intercept), computed.u_y1, 12)
    expectDigits(standardUncertainty(line.slope), computed.u_y2, 12)
    expectDigits(line.r, computed.r, 12)
    expectDigits(line.fit.residualSd, computed.s, 12)
    for (const [i, r] of computed.residuals.entries()) expect(line.fit.residuals[i]).toBeCloseTo(r, 14)
  })
  test('the correction at 30 degrees, with the correlation of intercept and slope', () => {
    const b30 = derive(at, {
      y1: line.intercept,
      y2: line.slope,
      t: exact(30, 'degC', 't'),
      t0: exact(20, 'degC', 't0'),
    })
    expectDigits(b30.value, computed.b_30, 12)
    expectRelative(standardUncertainty(b30), computed.u_b_30, 1e-9)
    expectPrinted(standardUncertainty(b30), h3.published.u_b_30.toFixed(4))
    expect(effectiveDof(b30)).toBeCloseTo(9, 10)
  })
  test('about the mean setting the two parameters do not go together', () => {
    const about = calibrationLine({
      x: h3.t,
      y: h3.b,
      at: computed.t_mean,
      unit: 'K',
      slopeUnit: '1',
      name: 't',
      what: 'c',
    })
    expect(Math.abs(about.r)).toBeLessThan(1e-12)
    expectDigits(about.intercept.value, computed.y1_at_t_mean, 12)
    expectDigits(standardUncertainty(about.intercept), computed.u_y1_at_t_mean, 12)
  })
})

describe('JCGM 100:2008, H.5: analysis of variance', () => {
  const h5 = guide['H.5']
  const groups = h5.daily_mean_V.map((mean, i) => ({ count: h5.readings_per_day, mean, sd: h5.daily_sd_uV[i]! * 1e-6 }))
  const a = analysisOfVariance(groups)
  const { computed } = h5
  test('within, between, and their ratio', () => {
    expectDigits(a.mean, computed.mean, 14)
    expectRelative(a.ofMeans.sd * 1e6, computed.s_of_daily_means_uV, 1e-8)
    expectRelative(a.within.sd * 1e6, computed.pooled_within_sd_uV, 1e-12)
    expectRelative(a.ratio, computed.F_unrounded, 1e-8)
    expect([a.ofMeans.dof, a.within.dof]).toEqual([9, 40])
    expectRelative(a.betweenSd * 1e6, computed.between_day_sd_uV, 1e-8)
  })
  test('the ratio lies between the 95 % and the 97.5 % point', () => {
    expect(a.chance).toBeLessThan(0.05)
    expect(a.chance).toBeGreaterThan(0.025)
  })
  test('uncertainty of the mean, with and without days that differ', () => {
    expectRelative(a.ifGroupsDiffer.u * 1e6, computed.u_mean_uV, 1e-8)
    expectRelative(a.ifAlike.u * 1e6, computed.u_mean_pooled_uV, 1e-8)
    expect([a.ifGroupsDiffer.dof, a.ifAlike.dof]).toEqual([
      h5.published.nu_with_between_day,
      h5.published.nu_if_no_between_day,
    ])
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
