import fc from 'fast-check'
import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { celsius, kelvin, thermalVoltage } from './index.ts'

/** kT/e from the exact constants in rational arithmetic, 17 digits: temperature in degC, V_T in V. */
const rational = [
  [0, '0.023538245805549552'],
  [20, '0.025261712457978587'],
  [23, '0.025520232455842942'],
  [25, '0.025692579121085846'],
  [27, '0.025864925786328750'],
  [50, '0.027846912436622140'],
  [75, '0.030001245752158436'],
  [100, '0.032155579067694729'],
  [125, '0.03430991238323102'],
  [150, '0.036464245698767318'],
] as const

test.each(rational)('at %i degC kT/e is %s V to the last digits of a double', (atC, text) => {
  expect(Math.abs(thermalVoltage(kelvin(atC)) / Number(text) - 1)).toBeLessThan(4e-16)
})

test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('%d K is refused', (t) => {
  expect(() => thermalVoltage(t)).toThrow(FaultError)
})

test('it grows in proportion to temperature', () =>
  fc.assert(
    fc.property(fc.double({ min: 1, max: 1000, noNaN: true }), (t) => {
      expect(thermalVoltage(2 * t) / thermalVoltage(t)).toBeCloseTo(2, 12)
      expect(celsius(kelvin(t))).toBeCloseTo(t, 9)
    }),
  ))
