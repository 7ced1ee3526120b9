import { describe, expect, test } from 'vitest'
import { outputGe, powerSi, signalDiode, smallSi, switchingGe, zener } from './bench.ref.ts'
import { ceilingOf, onTime, wishDefaults } from './index.ts'

const room = { ...wishDefaults, ambientC: 21, ambientU: 2 }

describe('the ceiling', () => {
  test('four fifths of each rating, in a room taken two uncertainties warmer', () => {
    const c = ceilingOf(smallSi, room, false)
    expect(c).toMatchObject({ ambientC: 25, junctionC: 160, assumed: [] })
    expect(c.collectorV).toBeCloseTo(36, 9)
    expect(c.collectorBaseV).toBeCloseTo(40, 9)
    expect(c.emitterBaseV).toBeCloseTo(4.8, 9)
    expect(c.currentA).toBeCloseTo(0.08, 9)
    expect(c.powerW).toBeCloseTo(0.24, 9)
  })

  test('power derates with the room', () => {
    // 0.7 W at 25 degC, nothing at 90 degC: 0.4846 W at 45 degC, of which four fifths
    expect(ceilingOf(outputGe, { ...room, ambientC: 41 }, false).powerW).toBeCloseTo((0.8 * 0.7 * 45) / 65, 9)
  })

  test('V_CEO that is not published is worked out low, but not below a V_CE of its published gain, and said', () => {
    const c = ceilingOf(switchingGe, room, false)
    // 25 V / 135^(1/3) is 4.87 V; h_fe is published at 6 V
    expect(c.collectorV).toBeCloseTo(0.8 * 6, 9)
    expect(c.assumed.join(' ')).toContain('V_CEO is not published')
  })

  test('a record of low confidence is trusted by half', () => {
    const doubtful = { ...smallSi, provenance: { ...smallSi.provenance, confidence: 'low' } } as const
    expect(ceilingOf(doubtful, room, false).collectorV).toBeCloseTo(22.5, 9)
  })

  test('nothing known: a milliampere, six volts, germanium', () => {
    const c = ceilingOf(undefined, room, false)
    expect(c).toMatchObject({ currentA: 1e-3, collectorV: 6, junctionC: 60 })
    expect(c.emitterBaseV).toBeUndefined()
    expect(c.assumed).toHaveLength(3)
  })

  test('a Zener diode stays where its leakage is published', () => {
    expect(ceilingOf(zener, room, true).reverseV).toBe(1)
    expect(ceilingOf(signalDiode, room, true).reverseV).toBeCloseTo(60, 9)
  })
})

describe('how long', () => {
  const c = ceilingOf(powerSi, room, false)

  test('little power may stay on', () => expect(onTime(c, 0.1, 0.05)).toEqual({ isAllowed: true, needsCool: false }))

  test('what warms but never too much is limited to a minute', () =>
    expect(onTime(c, 2, 0.5)).toEqual({ isAllowed: true, safeSeconds: 60, needsCool: false }))

  test('what would go too far is timed from a cool part', () => {
    // 160 K of room; 16 W: 24 K at once, then 40 K/W with 30 s: 16 x 40 (1 - exp(-t/30)) = 135.7 K after 7.1 s
    expect(onTime(c, 16, 4)).toEqual({ isAllowed: true, safeSeconds: 7, needsCool: true })
  })

  test('near a rating it is short whatever the heat', () =>
    expect(onTime(c, 1, 8)).toEqual({ isAllowed: true, safeSeconds: 5, needsCool: false }))

  test('past a ceiling, or too hot to be read in time, not at all', () => {
    expect(onTime(c, 1, 12.1).isAllowed).toBe(false)
    expect(onTime(c, 50, 10).isAllowed).toBe(false)
  })
})
