import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { expectRelative } from '#core/testing'
import {
  lambertOfExp,
  lambertW,
  type SeriesJunction,
  seriesJunctionByIteration,
  seriesJunctionCurrent,
  seriesJunctionVoltage,
} from './index.ts'
import reference from './series-junction.ref.json' with { type: 'json' }

const some = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const decades = (low: number, high: number) => some(low, high).map((x) => 10 ** x)

/** From a small silicon diode to a leaky power part, cold to hot, milliohm to megohm. */
const anyJunction: fc.Arbitrary<SeriesJunction> = fc.record({
  saturationA: decades(-18, -3),
  stepV: some(0.015, 0.2),
  seriesOhm: fc.oneof({ weight: 9, arbitrary: decades(-3, 6) }, { weight: 1, arbitrary: fc.constant(0) }),
})
/** 0, or no less than 1e-15 V: below, a double has fewer digits. Reverse, forward, hard forward, and next to nothing. */
const anyVoltage = fc
  .oneof(
    some(-50, 0),
    some(0, 2),
    some(2, 100),
    decades(-15, -3),
    decades(-15, -3).map((v) => -v),
  )
  .filter((v) => v === 0 || Math.abs(v) > 1e-15)

/** Current of a junction without resistance stays a number up to here. */
const inReach = (j: SeriesJunction, v: number): boolean => j.seriesOhm > 0 || v / j.stepV < 600

describe("Lambert's W to the digits of a double, against mpmath", () => {
  test.each(reference.w as [number, string][])('W(%d) = %s', (x, w) => expectRelative(lambertW(x), Number(w), 2e-15))
  test.each(reference.ofExp as [number, string][])('W(e^%d) = %s', (y, w) =>
    expectRelative(lambertOfExp(y), Number(w), 2e-15),
  )

  test('w e^w gives its argument back', () =>
    fc.assert(
      fc.property(some(-0.367, 3), (x) => {
        const w = lambertW(x)
        expect(Math.abs(w * Math.exp(w) - x)).toBeLessThan(1e-15 * (1 + Math.abs(x)))
      }),
      { numRuns: 2000 },
    ))

  test('w + ln w gives the logarithm of its argument back', () =>
    fc.assert(
      fc.property(some(-3, 1e4), (y) => {
        const w = lambertOfExp(y)
        expect(Math.abs(w + Math.log(w) - y)).toBeLessThan(1e-15 * (4 + Math.abs(y)))
      }),
      { numRuns: 2000 },
    ))

  test('below -1/e there is none', () => expect(() => lambertW(-0.4)).toThrow(FaultError))
})

describe('junction with series resistance', () => {
  test.each(reference.junctions as [number, number, number, number, string][])(
    'I_S %d A, n V_T %d V, R_S %d ohm at %d V: both ways, against mpmath',
    (saturationA, stepV, seriesOhm, volts, wanted) => {
      const j = { saturationA, stepV, seriesOhm }
      expectRelative(seriesJunctionCurrent(j, volts), Number(wanted), 1e-12, 'closed form')
      expectRelative(seriesJunctionByIteration(j, volts), Number(wanted), 1e-12, 'iteration')
    },
  )

  test('the closed form is the iteration to 1e-12, over the whole domain', () =>
    fc.assert(
      fc.property(anyJunction, anyVoltage, (j, v) => {
        fc.pre(inReach(j, v))
        expectRelative(seriesJunctionCurrent(j, v), seriesJunctionByIteration(j, v), 1e-12)
      }),
      { numRuns: 5000 },
    ))

  test('the voltage of its current is the voltage it was asked for', () =>
    fc.assert(
      fc.property(anyJunction, some(0, 2), (j, v) => {
        fc.pre(inReach(j, v))
        const back = seriesJunctionVoltage(j, seriesJunctionCurrent(j, v))
        expect(Math.abs(back - v)).toBeLessThan(1e-12 * Math.max(v, j.stepV))
      }),
      { numRuns: 2000 },
    ))

  test('current grows with voltage, and never falls below -I_S', () =>
    fc.assert(
      fc.property(anyJunction, anyVoltage, some(0.001, 1), (j, v, more) => {
        fc.pre(inReach(j, v + more))
        const [a, b] = [seriesJunctionCurrent(j, v), seriesJunctionCurrent(j, v + more)]
        expect(b).toBeGreaterThanOrEqual(a)
        expect(a).toBeGreaterThanOrEqual(-j.saturationA)
      }),
      { numRuns: 2000 },
    ))
})
