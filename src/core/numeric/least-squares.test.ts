import { describe, expect, test } from 'vitest'
import { expectDigits } from '#core/testing'
import { fitPolynomial, type LinearFit, leastSquares } from './least-squares.ts'
import strd from './strd-linear.ref.json'

type Entry = (typeof strd.sets)[number]

/**
 * Right digits reached at least, per set: coefficients, their standard deviations, residual sum of squares (of a
 * certified 0: minus the power of ten of what is left). Data are rounded to doubles on reading; for Norris, Pontius and
 * Wampler2, whose data are not doubles, that rounding and not the arithmetic sets the limit.
 */
const reached: Readonly<Record<string, readonly [coefficients: number, sd: number, rss: number]>> = {
  Filip: [13.5, 14, 14],
  Longley: [14, 14, 15],
  NoInt1: [14.5, 15, 14.5],
  NoInt2: [15, 14.5, 14.9],
  Norris: [14, 13.5, 13.5],
  Pontius: [13, 13.5, 13.5],
  Wampler1: [15, 24, 48],
  Wampler2: [13, 15, 29],
  Wampler3: [15, 14, 15],
  Wampler4: [15, 14, 15],
  Wampler5: [15, 14, 15],
}

function fitSet(set: Entry): LinearFit {
  if (!Array.isArray(set.x)) return leastSquares([set.y.map(() => 1), ...Object.values(set.x)], set.y)
  if (set.model === 'y = B1*x') return leastSquares([set.x], set.y)
  return fitPolynomial(set.x, set.y, set.certified.params.length - 1)
}

test('all eleven sets are here', () => expect(strd.sets.map((s) => s.name).sort()).toEqual(Object.keys(reached).sort()))

describe.each(strd.sets.map((s) => [s.name, s] as const))('NIST StRD linear regression, %s', (name, set) => {
  const fit = fitSet(set)
  const [coefficients, sd, rss] = reached[name]!
  test(`coefficients to ${coefficients} digits`, () => {
    for (const [i, c] of set.certified.params.entries()) expectDigits(fit.coefficients[i]!, c, coefficients, `B${i}`)
  })
  test(`their standard deviations to ${sd} digits`, () => {
    for (const [i, c] of set.certified.sd.entries()) expectDigits(fit.sd[i]!, c, sd, `sd of B${i}`)
  })
  test(`residuals to ${rss} digits`, () => {
    expectDigits(fit.rss, set.certified.rss, rss, 'sum of squares')
    expectDigits(fit.residualSd, set.certified.residual_sd, Math.min(rss, 13.5), 'residual sd')
    expectDigits(fit.rSquared, set.certified.r_squared, 13.5, 'R squared')
  })
  test('the residuals add up to the sum of squares', () => {
    const sum = fit.residuals.reduce((s, r) => s + r * r, 0)
    expect(Math.abs(sum - fit.rss)).toBeLessThanOrEqual(1e-9 * fit.rss + 1e-18)
  })
})

test('known uncertainties weigh the observations and set the covariance', () => {
  // two readings of one constant, 1 and 2, with u = 1 and u = 2: weighted mean 1.2, u = 2 / sqrt(5)
  const fit = leastSquares([[1, 1]], [1, 2], { sigma: [1, 2] })
  expect(fit.coefficients[0]).toBeCloseTo(1.2, 14)
  expect(fit.sd[0]).toBeCloseTo(2 / Math.sqrt(5), 14)
  expect(fit.rss).toBeCloseTo(0.04 + 0.16, 14)
})

describe('what cannot be fitted is refused', () => {
  test.each([
    [
      'a column that is another one doubled',
      [
        [1, 2, 3],
        [2, 4, 6],
      ],
      [1, 2, 3],
      /column 2 of the fit/,
    ],
    ['a column of zeros', [[0, 0, 0]], [1, 2, 3], /column 1 of the fit/],
    ['fewer observations than coefficients', [[1], [2]], [1], /count of observations is 1; it must be at least 2/],
    ['columns of different lengths', [[1, 2]], [1, 2, 3], /length of a column/],
    ['a reading that is no number', [[1, 1]], [1, Number.NaN], /observation is NaN/],
    ['no columns', [], [1], /count of coefficients/],
  ])('%s', (_, columns, y, message) => {
    expect(() => leastSquares(columns, y)).toThrow(message)
  })
  test('an uncertainty of zero', () => {
    expect(() => leastSquares([[1, 1]], [1, 2], { sigma: [0, 1] })).toThrow(/sigma is 0/)
  })
})
