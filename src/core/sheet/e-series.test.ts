import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { eSeries, preferredAbove, resistorRating } from './index.ts'

/** Preferred values as IEC 60063:2015 prints them. */
const printed = {
  E12: '1.0 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2',
  E24: '1.0 1.1 1.2 1.3 1.5 1.6 1.8 2.0 2.2 2.4 2.7 3.0 3.3 3.6 3.9 4.3 4.7 5.1 5.6 6.2 6.8 7.5 8.2 9.1',
} as const

describe.each(['E12', 'E24'] as const)('%s', (series) => {
  test('is the series as printed', () =>
    expect(eSeries[series].map((d) => (d / 10).toFixed(1)).join(' ')).toBe(printed[series]))

  test('a preferred value stays, one just above it moves up by a step', () => {
    for (const [i, digits] of eSeries[series].entries()) {
      const next = eSeries[series][i + 1] ?? 100
      expect(preferredAbove(digits * 10, series)).toBe(digits * 10)
      expect(preferredAbove(digits * 10.01, series)).toBeCloseTo(next * 10, 9)
    }
  })

  test('never below what was asked, never more than the widest step above', () =>
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e7, noNaN: true }), (ohm) => {
        const got = preferredAbove(ohm, series)
        expect(got).toBeGreaterThanOrEqual(ohm * (1 - 1e-9))
        expect(got).toBeLessThanOrEqual(ohm * 1.26)
      }),
    ))
})

test.each([
  [0.05, 0.125],
  [0.0625, 0.125],
  [0.08, 0.25],
  [0.3, 1],
  [60, 120],
])('%d W asks for a resistor of %d W', (power, rating) => expect(resistorRating(power)).toBe(rating))
