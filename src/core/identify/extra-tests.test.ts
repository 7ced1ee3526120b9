import { describe, expect, test } from 'vitest'
import { readNetlist } from '#core/circuit'
import { identifyPart } from './identify.ts'
import { leadCurve } from './lead-curve.ts'
import oracle from './lead-pairs.ref.json'
import { breakdownVolts, digitalMeter, type LeadReading, needleMeter, warmedOhm } from './meter.ts'
import { nextTest } from './next-test.ts'
import { riskOf } from './risk.ts'
import { parseShows } from './shown-text.ts'
import type { ExtraTest } from './trial.ts'
import { weigh } from './weigh.ts'

const netlist = (lines: readonly string[]) => readNetlist(['part', ...lines, '.end'].join('\n'))
const linesOf = (id: string) => oracle.cases.find((c) => c.id === id)!.netlist_lines

const reading = (plus: number, minus: number, text: string, more: Partial<LeadReading> = {}): LeadReading => {
  const read = parseShows(text, digitalMeter)
  if (!read.ok) throw new Error(read.problem)
  return { plus, minus, ...more, shows: read.shows }
}

/** Both junctions of an NPN drop alike: base on lead 1, emitter and collector not told. */
const alike = [
  reading(1, 2, '0.651 V'),
  reading(1, 3, '0.651 V'),
  reading(2, 1, 'open'),
  reading(3, 1, 'open'),
  reading(2, 3, 'open on 2M'),
  reading(3, 2, 'open on 2M'),
]

describe('gain through 300 kohm at 3 V', () => {
  // ngspice 39.3 on the netlists of the oracle: the current of the source less that of the resistor, by 8 uA
  test.each([
    ['h05', 'minus', 96.6641, 1.99801],
    ['h08', 'minus', 165.797, 6.02613],
    ['h09', 'plus', 78.7785, 2.25608],
    ['h13', 'plus', 533.457, 10.1953],
    ['h15', 'plus', 222.782, 4.68918],
  ] as const)('is that of ngspice, both ways: %s', (id, joined, forward, reversed) => {
    const part = netlist(linesOf(id))
    const [high, low] = joined === 'plus' ? ['tc', 'te'] : ['te', 'tc']
    const gain = (plus: string, minus: string) => leadCurve(part, ['tb', 'tc', 'te'], { plus, minus, joined }).gain!
    expect(gain(high, low) / forward).toBeCloseTo(1, 3)
    expect(gain(low, high) / reversed).toBeCloseTo(1, 3)
  })

  test('tells emitter from collector by which way it is larger', () => {
    const answer = identifyPart(
      [...alike, reading(3, 2, 'h_FE 150', { joined: 'plus' }), reading(2, 3, 'h_FE 5', { joined: 'plus' })],
      { meter: digitalMeter },
    )
    expect(answer.hypotheses[0]).toMatchObject({ text: 'silicon NPN BJT', leads: { 1: 'B', 2: 'E', 3: 'C' } })
    expect(answer.hypotheses[0]!.probability).toBeGreaterThan(0.95)
    expect(answer.evidence.join('\n')).toMatch(/NPN, C 3 B 1 E 2: h_FE 150\. From C to E of a silicon NPN BJT/)
  })
})

describe('breakdown on 12 V through 100 kohm', () => {
  test('is that of ngspice 39.3, and all of 12 V where nothing gives way', () => {
    const lines = [...linesOf('h15'), 'DEB tb te deb', '.model deb d (is=1e-18 n=1 rs=50 bv=7.3 ibv=1e-4 nbv=2)']
    const curve = (plus: string, minus: string) => leadCurve(netlist(lines), ['tb', 'tc', 'te'], { plus, minus })
    // 7.264 V by ngspice; kept points of the curve are a decade apart
    expect(breakdownVolts(curve('te', 'tb'))).toBeCloseTo(7.264, 1)
    expect(breakdownVolts(curve('tc', 'tb'))).toBeGreaterThan(11.9)
  })

  test('of the emitter junction of a planar type tells emitter from collector', () => {
    const seen = [...alike, reading(2, 1, '7.1 V from 12 V'), reading(3, 1, '12 V from 12 V')]
    const answer = identifyPart(seen, { meter: digitalMeter })
    expect(answer.hypotheses[0]).toMatchObject({ text: 'silicon NPN BJT', leads: { 1: 'B', 2: 'E', 3: 'C' } })
  })

  test('tells a Zener diode from a diode, and is offered for it: it cannot hurt', () => {
    const seen = [reading(1, 2, '0.7 V'), reading(2, 1, 'open')]
    const { next } = identifyPart(seen, { meter: digitalMeter, leads: 2 })
    expect(next).toMatchObject({ plus: 2, minus: 1, test: 'breakdown' })
    expect(next!.say).toMatch(/^12 V through 100 kΩ, plus on lead 2, minus on lead 1/)
    const after = identifyPart([...seen, reading(2, 1, '5.6 V from 12 V')], { meter: digitalMeter, leads: 2 })
    expect(after.hypotheses[0]!.text).toBe('silicon Zener diode')
    expect(after.hypotheses[0]!.probability).toBeGreaterThan(0.95)
  })
})

describe('what a test may do to the part', () => {
  const offered = (readings: readonly LeadReading[], also: readonly ExtraTest[], leads = 3) => {
    const all: string[] = []
    let seen = readings
    for (let k = 0; k < 5; k++) {
      const next = nextTest(weigh(seen, digitalMeter, leads), digitalMeter, { also })
      if (next === undefined) break
      all.push(next.test ?? 'meter')
      seen = [...seen, { ...next, shows: next.test === 'gain' ? { kind: 'gain', gain: 90 } : { kind: 'open' } }]
    }
    return all
  }

  test('an emitter junction is broken down only where that is asked for, and with a word of caution', () => {
    const { ranked } = weigh(alike, digitalMeter)
    const breakdown = { plus: 1, minus: 0, test: 'breakdown' } as const
    expect(offered(alike, ['gain'])).not.toContain('breakdown')
    expect(riskOf(breakdown, ranked, [])).toBeUndefined()
    const risk = riskOf(breakdown, ranked, ['breakdown'])!
    expect(risk.weight).toBeGreaterThan(0)
    expect(risk.caution).toContain('gain at small currents')
  })

  test('12 V never come near a part that may be a MOSFET or germanium', () => {
    expect(offered([], ['gain', 'breakdown'])[0]).not.toBe('breakdown')
    const gates = [reading(2, 3, '0.56 V'), reading(1, 2, 'open'), reading(2, 1, 'open')]
    expect(offered(gates, ['breakdown'])).not.toContain('breakdown')
    expect(offered([reading(1, 2, '0.22 V'), reading(1, 3, '0.21 V')], ['breakdown'])).not.toContain('breakdown')
  })

  test('a gain is asked for where somebody can measure one: with a needle meter too', () => {
    const pair = (plus: number, minus: number, ohm?: number): LeadReading => {
      const range = 'x100'
      return { plus, minus, shows: ohm === undefined ? { kind: 'open', range } : { kind: 'ohms', ohm, range } }
    }
    // its minus is the positive one: the base is at lead 1
    const all = [pair(2, 1, 1200), pair(3, 1, 1200), pair(1, 2), pair(1, 3), pair(2, 3), pair(3, 2)]
    const weighed = weigh(all, needleMeter)
    expect(nextTest(weighed, needleMeter)?.test).toBeUndefined()
    const next = nextTest(weighed, needleMeter, { also: ['gain'] })!
    expect(next.test).toBe('gain')
    expect(next.say).toMatch(/^Gain, in the socket or by your tester as (NPN|PNP), C \d B 1 E \d\.$/)
  })
})

describe('a needle meter with the base joined', () => {
  /** By the marks of the meter, base on 1: the end that is marked minus is the positive one. */
  const pair = (plus: number, minus: number, ohm?: number, joined?: 'plus' | 'minus'): LeadReading => {
    const shows = ohm === undefined ? { kind: 'open', range: 'x100' } : { kind: 'ohms', ohm, range: 'x100' }
    return { plus, minus, ...(joined === undefined ? {} : { joined }), shows } as LeadReading
  }
  const all = [pair(2, 1, 1500), pair(3, 1, 1500), pair(1, 2), pair(1, 3), pair(2, 3), pair(3, 2)]

  // ngspice 39.3 on h15 of the oracle, 1.5 V behind 2 kohm, 10 kohm to the base: 1508 ohm, and 4668 ohm reversed
  test('tells emitter from collector by which way it reads less', () => {
    const seen = [...all, pair(2, 3, 1510, 'minus'), pair(3, 2, 4670, 'minus')]
    const [best] = identifyPart(seen, { meter: needleMeter }).hypotheses
    expect(best).toMatchObject({ text: 'silicon NPN BJT', leads: { 1: 'B', 2: 'E', 3: 'C' } })
    expect(best!.probability).toBeGreaterThan(0.9)
  })

  test('is asked for by the marks of the meter', () => {
    const next = nextTest(weigh(all, needleMeter), needleMeter)!
    expect(next).toMatchObject({ joined: 'minus' })
    expect(next.say).toBe(
      `Ohms, range ${next.range}, red on lead ${next.plus}, black on lead ${next.minus}. Join lead 1 to lead ${next.minus} through 10 kΩ.`,
    )
  })
})

describe('a part held between two fingers', () => {
  test('leaks more: half the resistance for 10 K where the leakage doubles, the same where it does not', () => {
    const range = digitalMeter.ohms.find((r) => r.name === '2M')!
    const leaky = { volts: [0.5, 9, 9, 9], leakA: 2e-5, voltsPerK: 0, decadesPerK: Math.log10(2) / 10 }
    // at a current twice as large a junction of 10 uA at 0.5 V carries what it carried before
    expect(warmedOhm(leaky, range, 10)).toBeLessThan(0.75 * warmedOhm(leaky, range, 0))
    const steady = { ...leaky, decadesPerK: 0 }
    expect(warmedOhm(steady, range, 10)).toBe(warmedOhm(steady, range, 0))
  })

  test('speaks for germanium where its resistance falls, against it where it stays', () => {
    const seen = [reading(1, 2, '0.23 V'), reading(3, 2, '0.226 V'), reading(1, 3, '180 kohm on 2M')]
    const germanium = (readings: readonly LeadReading[]): number =>
      weigh(readings, digitalMeter)
        .ranked.filter((w) => w.hypothesis.condition.kind.id === 'ge')
        .reduce((sum, w) => sum + w.probability, 0)
    const falls = germanium([...seen, reading(1, 3, '100 kohm on 2M', { warmed: true })])
    const stays = germanium([...seen, reading(1, 3, '180 kohm on 2M', { warmed: true })])
    expect(falls).toBeGreaterThan(stays)
    const said = identifyPart([...seen, reading(1, 3, '100 kohm on 2M', { warmed: true })], { meter: digitalMeter })
    expect(said.evidence.join('\n')).toContain('1+ 3-, warm: 100 kΩ on 2M')
  })
})

describe('what is typed', () => {
  test.each([
    ['h_FE 120', { kind: 'gain', gain: 120 }],
    ['340 on 2k', { kind: 'ohms', ohm: 340, range: '2k' }],
    ['hFE = 85', { kind: 'gain', gain: 85 }],
    ['gain 1', { kind: 'gain', gain: 1 }],
    ['h_FE over', { kind: 'gain', gain: 2000 }],
    ['7.2 V from 12 V', { kind: 'breakdown', volts: 7.2 }],
  ])('%s', (text, shows) => expect(parseShows(text, digitalMeter)).toEqual({ ok: true, shows }))

  test.each([
    ['7 V from 30 V', 'is not from 12 V'],
    ['h_FE much', 'does not begin with a number'],
  ])('%s is refused', (text, problem) =>
    expect(parseShows(text, digitalMeter)).toMatchObject({ ok: false, problem: expect.stringContaining(problem) }),
  )
})
