import { describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import type { PartType } from '#core/device'
import {
  airPower,
  allowedPower,
  casePower,
  commonBaseCutoff,
  comparableCutoff,
  excessPhase,
  leakageAt,
  transitionFrequency,
} from '#core/standin'
import { expectPrinted } from '#core/testing'
import ngspice from './cutoff.ref.json' with { type: 'json' }

const types = await loadCatalog()
const named = (name: string): PartType => types.find((t) => t.type === name)!

describe('derating', () => {
  // Makers' datasheets: the power rating of each, and the thermal resistance or the derating printed beside it.
  test.each([
    ['2N3055', 'case', 0.657],
    ['2N388', 'ambient', 0.002],
    ['2N404', 'ambient', 0.002],
  ] as const)('%s falls by the derating of its datasheet, %s', (name, of, perK) => {
    const type = named(name)
    const allowed = of === 'case' ? casePower : airPower
    const at = (c: number): number => allowed(type, c)!.low!
    expect(at(25)).toBe(type.ratings.power[0]!.powerW)
    const slope = (at(35) - at(60)) / 25
    // T_Jmax of the 2N404 asks for more than its printed 2 mW/K: the steeper of the two counts
    const byJunction = at(25) / (type.ratings.T_Jmax! - 25)
    expect(slope).toBeCloseTo(Math.max(perK, byJunction), 6)
    expect(Math.max(perK, byJunction) / perK).toBeLessThan(1.26)
  })

  test.each([
    ['2N3055', 'case', '1.52'],
    ['2N3904', 'ambient', '200'],
    ['BC556', 'ambient', '250'],
  ] as const)('%s (%s) falls to nothing at T_Jmax with its printed thermal resistance', (name, of, rth) => {
    const type = named(name)
    const allowed = of === 'case' ? casePower : airPower
    const [hot, hotter] = [70, 120]
    const drop = allowed(type, hot)!.low! - allowed(type, hotter)!.low!
    // half a unit of the last printed place
    expectPrinted((hotter - hot) / drop, rth)
    expect(allowed(type, type.ratings.T_Jmax!)!.low).toBe(0)
  })

  test('never allows more than the rating and the thermal resistance printed beside it, in the whole catalog', () => {
    let compared = 0
    for (const t of types.filter((x) => x.family === 'bjt')) {
      const { R_thJC, R_thJA, T_Jmax, power } = t.ratings
      for (const [of, rth, allowed] of [
        ['case', R_thJC, casePower],
        ['ambient', R_thJA, airPower],
      ] as const) {
        const rating = power.find((p) => p.of === of)
        if (rth === undefined || T_Jmax === undefined || rating === undefined) continue
        compared++
        for (const c of [25, 40, 75, 100]) {
          const { low } = allowed(t, c)!
          expect(low, `${t.type} ${of} ${c}`).toBeLessThanOrEqual(Math.max(0, T_Jmax - c) / rth + 1e-12)
          expect(low, `${t.type} ${of} ${c}`).toBeLessThanOrEqual(rating.powerW)
        }
      }
    }
    expect(compared).toBeGreaterThan(40)
  })

  test('is not known above the rated temperature where neither T_Jmax nor a derating is published', () => {
    const rating = { powerW: 0.2, of: 'ambient', atC: 25 } as const
    expect(allowedPower(rating, undefined, 25)).toBe(0.2)
    expect(allowedPower(rating, undefined, 50)).toBeUndefined()
    expect(allowedPower({ ...rating, deratingWPerK: 0.004 }, undefined, 50)).toBeCloseTo(0.1, 12)
  })

  test('says that a free-air power was worked out from the outline', () => {
    const known = airPower(named('AD149'), 50)!
    expect(known.low).toBeUndefined()
    expect(known.how).toContain('typical of TO-3 in free air')
  })
})

describe('cut-off frequency', () => {
  test.each(ngspice.rows)('of one pole is what ngspice finds, h_fe $h', ({ h, f_hfe, f_hfb, f_T }) => {
    expect(commonBaseCutoff(f_hfe, h)).toBeCloseTo(f_hfb, -2)
    // the textbook leaves out 1/h_fe^2
    expect(Math.abs(transitionFrequency(f_hfe, h) / f_T - 1)).toBeLessThan(1 / h ** 2 + 1e-4)
  })

  test('published alike is compared as it stands', () => {
    const found = comparableCutoff({ symbol: 'f_hfb', hz: 4e6, why: '' }, named('2N1305'))!
    expect(found).toMatchObject({ symbol: 'f_hfb', neededHz: 4e6, known: { low: 5e6 } })
  })

  test('published otherwise is compared as f_T: what is needed on the strict, what is offered on the safe side', () => {
    expect(comparableCutoff({ symbol: 'f_hfb', hz: 4e6, why: '' }, named('BC557'))).toMatchObject({
      symbol: 'f_T',
      neededHz: 4e6,
    })
    const alloy = comparableCutoff({ symbol: 'f_T', hz: 3e6, why: '' }, named('2N1305'))!
    expect(alloy.known.low).toBeCloseTo(5e6 / excessPhase.uniform, 6)
    // f_hfe of 15 kHz with a gain of 100 takes an f_T of 1.5 MHz
    const stage = comparableCutoff({ symbol: 'f_hfe', hz: 15e3, gain: 100, why: '' }, named('2N1305'))!
    expect(stage.neededHz).toBeCloseTo(1.5e6, 6)
  })

  test('of a type that publishes none is not known', () => {
    expect(comparableCutoff({ symbol: 'f_T', hz: 1e6, why: '' }, named('OC71'))).toBeUndefined()
  })
})

test('leakage is taken from the published temperature that is nearest, and doubles every 10 K from there', () => {
  // datasheet of the 2N404: 5 uA at 25 degC, 90 uA at 80 degC
  expect(leakageAt(named('2N404'), 25)!.high).toBeCloseTo(5e-6, 12)
  expect(leakageAt(named('2N404'), 80)!.high).toBeCloseTo(90e-6, 12)
  expect(leakageAt(named('2N404'), 45)!.high).toBeCloseTo(20e-6, 12)
  expect(leakageAt(named('2N404'), 70)!.high).toBeCloseTo(45e-6, 12)
})
