import { describe, expect, test } from 'vitest'
import { correlation, derive, exact, formula, standardUncertainty } from '#core/quantity'
import { expectDigits, expectPrinted, expectRelative } from '#core/testing'
import { analysisOfVariance } from './analysis-of-variance.ts'
import { calibrationLine } from './calibration-line.ts'
import { effectiveDof } from './coverage.ts'
import guide from './guide.ref.json'
import { jointMeans } from './readings.ts'

const source = { title: 'JCGM 100:2008' }

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
