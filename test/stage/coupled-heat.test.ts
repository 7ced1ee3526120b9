import { describe, expect, test } from 'vitest'
import { writeNetlist } from '#core/circuit'
import {
  exactly,
  makeStage,
  overTemperature,
  type Position,
  type StagePoint,
  stageAt,
  stageCircuit,
  templateNamed,
  thermistorOhm,
} from '#core/stage'
import { expectRelative, hasSimulator, simulated } from '#core/testing'
import { partsFor, positionOf, transistor } from './positions.ts'

const output = transistor({
  polarity: 'NPN',
  gain: exactly(60),
  atA: 5e-3,
  leakageA: exactly(1e-5),
  vbeV: exactly(0.2),
  ratings: { rthKPerW: 150, junctionMaxC: 90 },
})

const stageOf = (id: string, more: Partial<Position> = {}) => {
  const position = positionOf(id, { polarity: 'NPN', ...more })
  return { position, parts: partsFor(position, output) }
}

const pointAt = (id: string, ambientC: number, more: Partial<Position> = {}): StagePoint => {
  const { position, parts } = stageOf(id, more)
  const outcome = stageAt(makeStage(position, parts), ambientC)
  if (outcome.kind !== 'point') throw new Error(outcome.kind)
  return outcome.point
}

describe('what the part that is looked at warms', () => {
  test('its own rise is that of its heat: T_J = T_A + R_th P', () => {
    const p = pointAt('push-pull-diode', 30)
    expect(p.junctionC).toBeGreaterThan(32)
    expectRelative(p.junctionC - 30, 150 * p.powerW, 1e-6, 'rise')
  })

  test('a diode on the heat sink takes standing current back, the more the better it touches', () => {
    const at = (share: number): number => pointAt('push-pull-diode', 30, { coupling: { D1: share, Q2: 1 } }).ic
    const currents = [0, 0.25, 0.5, 0.75, 1].map(at)
    expect(currents).toEqual([...currents].sort((a, b) => b - a))
    expect(currents[4]! / currents[0]!).toBeLessThan(0.95)
  })

  test('so does a thermistor, whose value falls by its B constant', () => {
    const at = (share: number): number => pointAt('push-pull-thermistor', 30, { coupling: { NTC: share } }).ic
    expect(at(1)).toBeLessThan(at(0))
    // IEC 60539-1: R = R_25 exp(B (1/T - 1/298.15 K)); 100 ohm of B 3000 K at 50 degC, worked out by hand
    expectRelative(thermistorOhm(100, 3000, 50), 100 * Math.exp(3000 * (1 / 323.15 - 1 / 298.15)), 1e-12, 'R')
  })

  test('the other half of the pair warms as far, and with it the current rises', () => {
    const alone = pointAt('push-pull', 30, { coupling: { Q2: 0 } })
    expect(pointAt('push-pull', 30).ic).toBeGreaterThan(alone.ic)
  })

  test('a driver that is looked at warms nothing but itself', () => {
    expect(templateNamed('push-pull-diode').heats!.Q3).toBeUndefined()
    expect(pointAt('push-pull-diode', 30, { place: 'Q3' }).ic).toBe(
      pointAt('push-pull-diode', 30, { place: 'Q3', coupling: { D1: 0, Q2: 0 } }).ic,
    )
  })

  test('a diode that touches well puts thermal runaway off to hotter air', () => {
    const failsAt = (share: number): number => {
      const hot = { ...positionOf('push-pull-diode').demands, toC: 75, drift: 50 }
      const { position, parts } = stageOf('push-pull-diode', { demands: hot, coupling: { D1: share } })
      const { limits } = overTemperature(makeStage(position, parts))
      return limits.find((l) => l.limit === 'runaway')?.failsAtC ?? Number.POSITIVE_INFINITY
    }
    expect(Number.isFinite(failsAt(0))).toBe(true)
    expect(failsAt(1)).toBeGreaterThan(failsAt(0) + 1)
  })
})

describe('a heat sink', () => {
  const onSink = (heatSinkKPerW: number, ratings: typeof output.ratings) => {
    const position = positionOf('push-pull', { polarity: 'NPN', heatSinkKPerW })
    return makeStage(position, partsFor(position, { ...output, ratings })).part
  }

  test('takes the heat through the case: R_thJC + R_thCA', () => {
    const part = onSink(12, { rthKPerW: 150, rthCaseKPerW: 30 })
    expect(part.ratings.rthKPerW).toBe(42)
    expect(part.notes).toEqual([])
  })

  test('half of the way to the air is taken to be to the case where that is not known, and said', () => {
    const part = onSink(12, { rthKPerW: 150 })
    expect(part.ratings.rthKPerW).toBe(87)
    expect(part.notes.join(' ')).toMatch(/75 K\/W is taken \(common practice\)/)
  })

  test('does nothing for a part of whose heat nothing is known, and says so', () =>
    expect(onSink(12, {}).notes.join(' ')).toMatch(/Nothing is known of its heat/))

  test('lowers the junction as far as it lowers the resistance', () => {
    const cool = pointAt('push-pull', 40, { heatSinkKPerW: 5, coupling: { Q2: 0 } })
    expectRelative(cool.junctionC - 40, 80 * cool.powerW, 1e-6, 'rise')
    expect(cool.junctionC).toBeLessThan(pointAt('push-pull', 40, { coupling: { Q2: 0 } }).junctionC)
  })
})

describe.runIf(hasSimulator())('as ngspice has it with the temperatures each part comes to', () => {
  test.each([
    ['push-pull-diode', { Q2: 1, D1: 0.5 }],
    ['push-pull-diode', { Q2: 0.8, D1: 1, Q3: 0.2 }],
    ['push-pull', { Q2: 1 }],
  ] as const)('%s, %o', (id, coupling) => {
    const ambientC = 35
    const { position, parts } = stageOf(id, { coupling })
    const p = pointAt(id, ambientC, { coupling })
    const rise = p.junctionC - ambientC
    const shares: Readonly<Record<string, number>> = { ...coupling, Q1: 1 }
    const circuit = { ...stageCircuit(position, parts), temperatureC: ambientC, gminS: 1e-15 }
    const warmed = writeNetlist(circuit).replaceAll(/^([QD]\d) .*$/gm, (card, ref: string) =>
      shares[ref] === undefined ? card : `${card} temp=${ambientC + shares[ref] * rise}`,
    )
    expect(warmed.match(/temp=/g)).toHaveLength(Object.keys(shares).length)
    const said = simulated(warmed, ['@q1[ic]', 'v(vcc)', 'v(en)'])
    expectRelative(said['@q1[ic]']!, p.ic, 1e-4, 'I_C')
    expectRelative(said['v(vcc)']! - said['v(en)']!, p.vce, 1e-4, 'V_CE')
  })
})
