import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { expectPrinted, expectRelative } from '#core/testing'
import { alloys, gaugeDiameterM, wireShunt } from './index.ts'
import reference from './wire.ref.json' with { type: 'json' }
import { ohmPerMetre } from './wire.ts'
import { heatGiven, wireTemperature } from './wire-heat.ts'

const metresPer1000Ft = 304.8

describe('ASTM B258 and IEC 60028', () => {
  test.each(reference.gauges)('gauge %d is %d in, and a kilometre of its copper has %d ohm', (awg, inches, ohm) => {
    expectRelative(gaugeDiameterM(awg!) / 0.0254, inches!, 1e-12)
    expectRelative(ohmPerMetre(alloys.copper, gaugeDiameterM(awg!))[0] * 1000, ohm!, 1e-12)
  })
  test.each(reference.printedInches)('gauge %d is printed %s in', (awg, printed) =>
    expectPrinted(gaugeDiameterM(Number(awg)) / 0.0254, String(printed)),
  )
  // tables were made from diameters rounded to four figures, so their last figure may differ
  test.each(reference.copper)('copper of gauge %d has %s ohm per 1000 ft', (awg, ohm) =>
    expectRelative(ohmPerMetre(alloys.copper, gaugeDiameterM(Number(awg)))[0] * metresPer1000Ft, Number(ohm), 3e-4),
  )
})

/** A maker states its currents for a straight horizontal wire in free air; drafts and finish make 15 % of difference. */
test.each(reference.nichrome80At200C.ampere)(
  'nichrome of gauge %d takes about %d A to reach 200 degC',
  (awg, ampere) => {
    const d = gaugeDiameterM(awg)
    const hotOhm = ohmPerMetre(alloys.nichrome, d)[0] * (1 + 9e-5 * 180)
    expectRelative(Math.sqrt(heatGiven(d, 200, 20) / hotOhm), ampere, 0.15)
  },
)

test('a wire gives off what it takes in', () =>
  fc.assert(
    fc.property(
      fc.double({ min: 5e-5, max: 3e-3, noNaN: true }),
      fc.double({ min: 0.01, max: 30, noNaN: true }),
      (d, wattPerMetre) => {
        const t = wireTemperature(d, wattPerMetre, 20)
        if (t === undefined) expect(heatGiven(d, 900, 20)).toBeLessThan(wattPerMetre)
        else expectRelative(heatGiven(d, t, 20), wattPerMetre, 1e-5)
      },
    ),
  ))

const wish = {
  ohm: 0.1,
  alloy: alloys.manganin,
  diameterM: gaugeDiameterM(20),
  currentA: 1,
  ambientC: 20,
  temperaturesC: [10, 40] as const,
  jointOhm: 0.002,
}

/** By hand: 0.5176 mm2 of 0.43 to 0.482 ohm mm2/m takes 0.107 to 0.120 m; 0.1 W; 2 x 2 milliohm of 100 are 4 %. */
test('a tenth of an ohm for an ampere, of manganin', () => {
  const s = wireShunt(wish)
  expectRelative(s.lengthM[0], (0.1 * 0.51762) / 0.482, 1e-4)
  expectRelative(s.lengthM[1], (0.1 * 0.51762) / 0.43, 1e-4)
  expectRelative(s.powerW, 0.1, 1e-12)
  expectRelative(s.byJoints, 0.04, 1e-12)
  expectRelative(s.densityAPerMm2, 1 / 0.51762, 1e-4)
  expectRelative(s.byAmbient, 1.5e-5 * 20, 1e-12)
  expect(s.wireC).toBeGreaterThan(21)
  expect(s.wireC).toBeLessThan(50)
  expect(s.advice.join(' ')).toMatch(/four connections/)
  expect(s.advice.join(' ')).not.toMatch(/too warm/)
})

test('a thin wire is told to be too thin, and a copper one to drift', () => {
  const hot = wireShunt({ ...wish, diameterM: gaugeDiameterM(36), currentA: 3 })
  expect(hot.wireC).toBeUndefined()
  expect(hot.advice.join(' ')).toMatch(/too warm/)
  const copper = wireShunt({ ...wish, alloy: alloys.copper })
  expect(copper.lengthM[0]).toBe(copper.lengthM[1])
  expect(copper.advice.join(' ')).toMatch(/drifts/)
  expect(wireShunt({ ...wish, alloy: alloys.constantan, ohm: 0.01 }).advice.join(' ')).toMatch(/1 K warmer/)
})
