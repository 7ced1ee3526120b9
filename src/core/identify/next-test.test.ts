import { describe, expect, test } from 'vitest'
import { digitalMeter, type LeadReading, needleMeter } from './meter.ts'
import { nextTest } from './next-test.ts'
import { weigh } from './weigh.ts'

const volts = (plus: number, minus: number, v: number): LeadReading => ({
  plus,
  minus,
  shows: { kind: 'volts', volts: v },
})
const open = (plus: number, minus: number): LeadReading => ({ plus, minus, shows: { kind: 'open' } })

describe('the next test', () => {
  test('is none that was taken', () => {
    const readings = [volts(1, 2, 0.65), open(2, 1)]
    const next = nextTest(weigh(readings, digitalMeter, 3), digitalMeter)!
    expect(readings.some((r) => r.plus === next.plus && r.minus === next.minus && next.joined === undefined)).toBe(
      next.range !== undefined && next.plus + next.minus === 3,
    )
  })

  test('joins the third lead where emitter and collector are to be told apart, and expects what tells them', () => {
    const readings = [volts(1, 2, 0.651), volts(1, 3, 0.651), open(2, 1), open(3, 1), open(2, 3), open(3, 2)]
    const next = nextTest(weigh(readings, digitalMeter), digitalMeter)!
    expect(next.joined).toBeDefined()
    expect(next.say).toMatch(/^Diode check, red on lead \d, black on lead \d\. Join lead 1 to lead \d through 10 kΩ\.$/)
    const [one, other] = next.expected
    expect(one!.shows).not.toBe(other!.shows)
  })

  test('settles what it was expected to settle: the joined reading makes an NPN of two that are alike', () => {
    const readings = [volts(1, 2, 0.651), volts(1, 3, 0.651), open(2, 1), open(3, 1), open(2, 3), open(3, 2)]
    const before = weigh(readings, digitalMeter)
    const joined: LeadReading = { plus: 3, minus: 2, joined: 'plus', shows: { kind: 'volts', volts: 0.74 } }
    const after = weigh([...readings, joined], digitalMeter)
    expect(before.ranked[0]!.probability).toBeLessThan(0.8)
    expect(after.ranked[0]!.probability).toBeGreaterThan(0.9)
    // a base current of some microamperes: lead 3 is the collector (order holds the place of the electrode: B, C, E)
    expect(after.ranked[0]!.hypothesis.order).toEqual([0, 2, 1])
  })

  test('tells germanium from a Schottky diode on a high range, where leakage counts', () => {
    const next = nextTest(weigh([open(1, 2), volts(2, 1, 0.291)], digitalMeter, 2), digitalMeter)!
    expect(next.range).toBe('2M')
  })

  test('with a needle meter is one of its middle ranges, never the lowest', () => {
    let readings: readonly LeadReading[] = []
    for (let k = 0; k < 4; k++) {
      const next = nextTest(weigh(readings, needleMeter, 3), needleMeter)
      if (next === undefined) break
      expect(['x100', 'x1k']).toContain(next.range)
      readings = [...readings, { plus: next.plus, minus: next.minus, shows: { kind: 'open', range: next.range! } }]
    }
    expect(readings.length).toBeGreaterThan(2)
  })
})

describe('a needle meter', () => {
  test('has its positive terminal at minus on ohms: the same junction is read the other way round', () => {
    const ohms = (plus: number, minus: number): LeadReading => ({
      plus,
      minus,
      shows: { kind: 'ohms', ohm: 600, range: 'x10' },
    })
    const over = (plus: number, minus: number): LeadReading => ({ plus, minus, shows: { kind: 'open', range: 'x10' } })
    const { ranked } = weigh([ohms(1, 2), over(2, 1)], needleMeter, 2)
    const [best] = ranked
    expect(best!.hypothesis.condition.kind.electrodes[best!.hypothesis.order[1]!]).toBe('A')
  })
})
