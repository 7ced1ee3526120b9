import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { onePulse, openBaseLeakage, publishedDerating, publishedRth } from './heat.ref.ts'
import {
  coolingRise,
  deratedPower,
  type HeatRatings,
  heatPath,
  junctionAfter,
  junctionTemperature,
  leakageLoopGain,
  outlineHeat,
  pathResistance,
  ratedResistance,
  safeTime,
  thermalResistance,
  transientRise,
} from './index.ts'

/** Half a unit in the last printed place. */
function expectPrinted(got: number, printed: string): void {
  const decimals = printed.split('.')[1]?.length ?? 0
  expect(Math.abs(got - Number(printed)), `${got} is not ${printed}`).toBeLessThanOrEqual(0.5000001 * 10 ** -decimals)
}

describe('ratings', () => {
  test.each(publishedRth)('$type: thermal resistance $printed K/W follows from its ratings', (r) =>
    expectPrinted(thermalResistance(r.tJmaxC, r.powerW), r.printed),
  )

  test.each(publishedDerating)('$type: derating factor $printed mW/K follows from its ratings', (r) =>
    expectPrinted(1000 / thermalResistance(r.tJmaxC, r.powerW), r.printed),
  )

  test('power derates from the full rating to nothing at T_Jmax', () => {
    const rating = { powerW: 0.15, of: 'ambient', atC: 25 } as const
    expect(deratedPower(rating, 100, 10)).toBe(0.15)
    expect(deratedPower(rating, 100, 25)).toBe(0.15)
    expectPrinted(deratedPower(rating, 100, 45), '0.110')
    expect(deratedPower(rating, 100, 100)).toBe(0)
    expect(deratedPower(rating, 100, 120)).toBe(0)
  })

  test('power derated to a temperature brings the junction just to T_Jmax', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 25, max: 140, noNaN: true }),
        fc.double({ min: 0.01, max: 200, noNaN: true }),
        (t, p) => {
          const rth = thermalResistance(150, p)
          const derated = deratedPower({ powerW: p, of: 'case', atC: 25 }, 150, t)
          expect(junctionTemperature(t, derated, rth)).toBeCloseTo(150, 9)
        },
      ),
    ))

  test('a published derating that is steeper, or a resistance that is larger, counts', () => {
    const gentle = { powerW: 0.15, of: 'ambient', atC: 25, deratingWPerK: 0.002 } as const
    expect(ratedResistance(gentle, 85)).toBeCloseTo(500, 9)
    expect(deratedPower(gentle, 85, 45)).toBeCloseTo(0.1, 12)
    expect(deratedPower({ ...gentle, deratingWPerK: 0.004 }, 85, 45)).toBeCloseTo(0.07, 12)
  })

  test.each([
    [100, 0, 25],
    [100, Number.NaN, 25],
    [25, 1, 25],
  ])('a rating that makes no sense is refused: %d degC, %d W, %d degC', (tj, p, at) =>
    expect(() => thermalResistance(tj, p, at)).toThrow(FaultError),
  )
})

describe('one pole', () => {
  test.each(onePulse.rows)('a pulse: at %d s the junction is at %d degC', (t, printed) => {
    const { rth, tau, powerW, onS, offS, ambientC } = onePulse
    const on = transientRise(powerW, rth, tau, Math.max(0, Math.min(t, offS) - onS))
    const got = ambientC + coolingRise(on, tau, Math.max(0, t - offS))
    expect(Math.abs(got - printed)).toBeLessThan(1e-7)
  })
})

const smallCan: HeatRatings = { T_Jmax: 175, power: [{ powerW: 0.3, of: 'ambient', atC: 25 }] }
const largeCan: HeatRatings = { T_Jmax: 200, R_thJC: 1.52, power: [{ powerW: 115, of: 'case', atC: 25 }] }

describe('the way out', () => {
  test('a small part: resistance to air from its power rating, half of it at once', () => {
    const path = heatPath(smallCan, 'TO-18')
    expect(pathResistance(path)).toBeCloseTo(500, 9)
    expect(path.fastKPerW).toBeCloseTo(250, 9)
    expect(path.from).toBe('rated power in free air')
  })

  test('a power part without heat sink: the case to air added by its outline', () => {
    const path = heatPath(largeCan, 'TO-3')
    expect(pathResistance(path)).toBeCloseTo(41.52, 2)
    expect(path.fastKPerW).toBeCloseTo(1.52, 2)
    expect(path.from).toContain('from memory')
  })

  test('a published R_thJA counts, and the worse of two numbers counts more', () => {
    expect(pathResistance(heatPath({ ...smallCan, R_thJA: 520 }))).toBe(520)
    expect(pathResistance(heatPath({ ...smallCan, R_thJA: 300 }))).toBeCloseTo(500, 9)
  })

  test('an outline written two ways is found', () => {
    expect(pathResistance(heatPath({ T_Jmax: 85, power: [] }, 'TO-39 (TO-5)'))).toBe(220)
    expect(heatPath({ T_Jmax: 85, power: [] }).from).toContain('nothing published')
  })

  test.each(outlineHeat)('$outline: the span is in order and says where it comes from', (o) => {
    expect(o.spanKPerW[0]).toBeLessThanOrEqual(o.spanKPerW[1])
    expect(['common practice', 'from memory']).toContain(o.source.standing)
  })
})

describe('safe time', () => {
  const path = heatPath(largeCan, 'TO-3')

  test('little power may stay on, far too much not for a moment', () => {
    expect(safeTime(path, 25, 1, 185)).toBe(Number.POSITIVE_INFINITY)
    expect(safeTime(path, 25, 110, 185)).toBe(0)
    expect(safeTime(path, 190, 0.001, 185)).toBe(0)
  })

  test('at its end the junction is just at the ceiling, whatever the power', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 150, noNaN: true }),
        fc.double({ min: -10, max: 60, noNaN: true }),
        (p, ta) => {
          const t = safeTime(path, ta, p, 185)
          if (t === 0) expect(junctionAfter(path, ta, p, 0)).toBeGreaterThanOrEqual(185 - 1e-9)
          else if (t === Number.POSITIVE_INFINITY)
            expect(junctionAfter(path, ta, p, 1e9)).toBeLessThanOrEqual(185 + 1e-9)
          else expect(junctionAfter(path, ta, p, t)).toBeCloseTo(185, 6)
        },
      ),
    ))

  test('more power never makes it longer', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (p, k) => {
          expect(safeTime(path, 25, p * k, 185)).toBeLessThanOrEqual(safeTime(path, 25, p, 185))
        },
      ),
    ))
})

describe('self-heating in a leakage test', () => {
  test.each(openBaseLeakage)(
    '$leakageA A at $rthKPerW K/W: on the safe side of the full solution, by less than a third',
    (r) => {
      const got = leakageLoopGain({ ...r, seriesOhm: 0 })
      expect(got).toBeGreaterThanOrEqual(r.loopGain)
      expect(got).toBeLessThan((r.loopGain * 4) / 3)
    },
  )

  test('resistance in series holds it down, to nothing where it takes half the supply', () => {
    const base = { supplyV: 9, leakageA: 1e-3, rthKPerW: 300 }
    expect(leakageLoopGain({ ...base, seriesOhm: 1000 })).toBeLessThan(leakageLoopGain({ ...base, seriesOhm: 0 }))
    expect(leakageLoopGain({ ...base, seriesOhm: 4500 })).toBe(0)
  })
})
