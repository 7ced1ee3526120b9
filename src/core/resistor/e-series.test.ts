import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import reference from './e-series.ref.json' with { type: 'json' }
import {
  eSeries,
  eSeriesNames,
  nearestPreferred,
  preferredAbove,
  preferredBelow,
  preferredBetween,
  resistorRating,
  seriesOf,
} from './index.ts'

/** A resistance a tester may hold. */
const anyOhm = fc.double({ min: 0.01, max: 1e7, noNaN: true })

describe.each(eSeriesNames)('%s', (series) => {
  test('is the series as published', () => expect(eSeries[series]).toEqual(reference.values[series]))

  test('a preferred value stays, one just above it moves up by a step, one just below stays or moves down', () => {
    const digits = eSeries[series]
    const ten = 10 * digits[0]!
    for (const [i, d] of digits.entries()) {
      expect(preferredAbove(d * 10, series)).toBe(d * 10)
      expect(preferredBelow(d * 10, series)).toBe(d * 10)
      expect(preferredAbove(d * 10.01, series)).toBeCloseTo((digits[i + 1] ?? ten) * 10, 9)
      expect(preferredBelow(d * 10.01, series)).toBe(d * 10)
      expect(seriesOf(d * 10)).toContain(series)
    }
  })

  test('values lie in order around what was asked, and no member is nearer than the nearest', () =>
    fc.assert(
      fc.property(anyOhm, (ohm) => {
        const [below, above] = [preferredBelow(ohm, series), preferredAbove(ohm, series)]
        expect(below).toBeLessThanOrEqual(ohm * (1 + 1e-9))
        expect(above).toBeGreaterThanOrEqual(ohm * (1 - 1e-9))
        const nearest = nearestPreferred(ohm, series)
        const far = (v: number): number => Math.abs(Math.log(v / ohm))
        for (const v of preferredBetween(ohm / 3, ohm * 3, series))
          expect(far(v)).toBeGreaterThanOrEqual(far(nearest) - 1e-12)
      }),
    ))
})

test('the values between two are all there, each once', () => {
  expect(preferredBetween(900, 2200, 'E6')).toEqual([1000, 1500, 2200])
  expect(preferredBetween(1, 10, 'E96')).toHaveLength(97)
  expect(preferredBetween(12, 13, 'E3')).toEqual([])
})

/** Read off the published lists. */
test.each([
  [4700, ['E3', 'E6', 'E12', 'E24', 'E192']],
  [5600, ['E12', 'E24']],
  [4750, ['E96', 'E192']],
  [169, ['E48', 'E96', 'E192']],
  [9.2, ['E192']],
  [0.1, eSeriesNames],
  [4600, []],
])('%d ohm is a member of %j', (ohm, names) => expect(seriesOf(ohm)).toEqual(names))

test.each([
  [0.05, 0.125],
  [0.0625, 0.125],
  [0.08, 0.25],
  [0.3, 1],
  [60, 120],
])('%d W asks for a resistor of %d W', (power, rating) => expect(resistorRating(power)).toBe(rating))
