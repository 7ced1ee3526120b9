import fc from 'fast-check'
import { expect, test } from 'vitest'
import { seriesResistor } from './index.ts'

test('9 V, a silicon diode at 10 mA: 830 ohm, 1 kohm of E12 falls short, 910 ohm of E24', () => {
  const r = seriesResistor({ supplyV: 9, dropV: 0.7, wantedA: 0.01, ohmThere: 0 })!
  expect(r).toMatchObject({ ohm: 910, series: 'E24', supplyV: 9, ratingW: 0.25 })
  expect(r.currentA).toBeCloseTo(8.3 / 910, 12)
  expect(r.powerW).toBeCloseTo(8.3 ** 2 / 910, 12)
  expect(r.working).toBe(
    'R = (V - V_F) / I_F = (9 V - 700 mV) / 10 mA = 830 ohm; next E24 value above: 910 ohm, which gives 9.12 mA; power I^2 R = 75.7 mW, 89 mW with the diode shorted: take a 250 mW resistor',
  )
})

test('E12 where it comes within a tenth of the current wanted', () =>
  expect(seriesResistor({ supplyV: 4.5, dropV: 0.7, wantedA: 0.01, ohmThere: 0 })).toMatchObject({
    ohm: 390,
    series: 'E12',
  }))

test('what is there already counts, and may be enough', () => {
  expect(seriesResistor({ supplyV: 4.5, dropV: 0.7, wantedA: 0.01, ohmThere: 100 })).toMatchObject({ ohm: 300 })
  expect(seriesResistor({ supplyV: 4.5, dropV: 0.7, wantedA: 0.01, ohmThere: 500 })).toBeUndefined()
  expect(seriesResistor({ supplyV: 0.5, dropV: 0.7, wantedA: 0.01, ohmThere: 0 })).toBeUndefined()
})

test('never more current than wanted, and the resistor bears a shorted diode at half its rating', () =>
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 60, noNaN: true }),
      fc.double({ min: 0.1, max: 0.9, noNaN: true }),
      fc.double({ min: 1e-4, max: 1, noNaN: true }),
      (supplyV, dropV, wantedA) => {
        const r = seriesResistor({ supplyV, dropV, wantedA, ohmThere: 0.5 })
        if (r === undefined) return
        expect(r.currentA).toBeLessThanOrEqual(wantedA * (1 + 1e-9))
        expect((supplyV / (r.ohm + 0.5)) ** 2 * r.ohm).toBeLessThanOrEqual(r.ratingW / 2 + 1e-12)
      },
    ),
  ))
