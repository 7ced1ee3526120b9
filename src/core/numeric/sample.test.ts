import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { expectDigits } from '#core/testing'
import { autocorrelation, median, quantile, sampleCovariance, summarize } from './sample.ts'
import strd from './strd-univariate.ref.json'

/**
 * Right digits reached at least, per set: mean, standard deviation, lag-1 autocorrelation. Where the data are not
 * doubles (0.1 beside ten million in NumAcc3 and 4), rounding them on reading sets the limit, whatever the arithmetic.
 */
const reached: Readonly<Record<string, readonly [mean: number, sd: number, autocorrelation: number]>> = {
  Lew: [15, 15, 14],
  Lottery: [15, 15, 14.5],
  Mavro: [15, 13, 13.5],
  Michelso: [15, 13.5, 13],
  NumAcc1: [15, 15, 15],
  NumAcc2: [15, 15, 15],
  NumAcc3: [15, 9.4, 12],
  NumAcc4: [15, 8.2, 10.9],
  PiDigits: [15, 15, 15],
}

test('all nine sets are here', () => expect(strd.sets.map((s) => s.name).sort()).toEqual(Object.keys(reached).sort()))

describe.each(strd.sets.map((s) => [s.name, s] as const))('NIST StRD univariate, %s', (name, set) => {
  const [mean, sd, lag] = reached[name]!
  test(`mean ${mean}, sd ${sd}, autocorrelation ${lag} digits`, () => {
    const s = summarize(set.y)
    expect(s.count).toBe(set.y.length)
    expectDigits(s.mean, set.certified.mean, mean, 'mean')
    expectDigits(s.sd, set.certified.sd, sd, 'sd')
    expectDigits(autocorrelation(set.y), set.certified.autocorrelation_lag1, lag, 'autocorrelation')
  })
})

test('no values are refused; one value has no standard deviation', () => {
  expect(() => summarize([])).toThrow('count of values is 0; it must be at least 1.')
  expect(summarize([5])).toEqual({ count: 1, mean: 5, sd: Number.NaN })
})

test('a sample has with itself its variance for covariance', () => {
  const anySample = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 50 })
  fc.assert(
    fc.property(anySample, (x) => {
      expect(sampleCovariance(x, x)).toBeCloseTo(summarize(x).sd ** 2, 3)
    }),
  )
  expect(() => sampleCovariance([1, 2], [1])).toThrow('same length')
})

test('quantiles are interpolated between neighbours', () => {
  expect([0, 0.25, 0.5, 1].map((p) => quantile([4, 1, 3, 2], p))).toEqual([1, 1.75, 2.5, 4])
  expect(median([3, 1, 2])).toBe(2)
  expect(quantile([], 0.5)).toBeNaN()
})
