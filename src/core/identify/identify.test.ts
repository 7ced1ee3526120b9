import { describe, expect, test } from 'vitest'
import { likelyText } from './answer.ts'
import { type IdentifiedAs, type Identity, identifyPart } from './identify.ts'
import oracle from './lead-pairs.ref.json'
import { digitalMeter, type LeadReading } from './meter.ts'

type Row = readonly [plus: number, minus: number, v: number, i: number, state: string]

const readingsOf = (c: (typeof oracle.cases)[number]): readonly LeadReading[] =>
  c.readings.flatMap((at) =>
    (at.rows as unknown as readonly Row[]).map(
      ([plus, minus, v, i, state]): LeadReading => ({
        plus,
        minus,
        temperatureC: at.temperature_degC,
        shows: state === 'compliance' ? { kind: 'leak', amperes: i, volts: v } : { kind: 'volts', volts: v },
      }),
    ),
  )

interface Truth {
  readonly family: string
  readonly technology: string
  readonly polarity: string
  readonly fault?: string
}

/** Whether an answer is the truth: its leads as far as they can be told. */
function isTruth(a: IdentifiedAs, truth: Truth, leads: Readonly<Record<string, string>>): boolean {
  const faults: Readonly<Record<string, string>> = {
    'collector-emitter short 0.4 ohm': 'collector-emitter short',
    'emitter bond open': 'emitter open',
  }
  const isFault = a.fault === (truth.fault === undefined ? 'none' : faults[truth.fault])
  const isLeads = Object.entries(leads).every(([lead, e]) => a.leads[lead]!.split(' or ').includes(e))
  return (
    a.family === truth.family &&
    a.technology === truth.technology &&
    a.polarity === truth.polarity &&
    isFault &&
    isLeads
  )
}

describe('parts simulated by ngspice 39 are named', () => {
  const identified = oracle.cases.map((c) => ({ c, answer: identifyPart(readingsOf(c), { meter: digitalMeter }) }))
  const best = (answer: Identity): IdentifiedAs => answer.hypotheses[0]!

  test.each(identified.filter(({ c }) => c.id !== 'h07'))('$c.id', ({ c, answer }) => {
    expect(best(answer), JSON.stringify(answer.hypotheses.slice(0, 3))).toSatisfy((a: IdentifiedAs) =>
      isTruth(a, c.truth, c.lead_map as unknown as Record<string, string>),
    )
    expect(answer.somethingElse).toBeLessThan(0.01)
  })

  test('a junction alone: an NPN and a PNP without emitter show the same, and it says so', () => {
    const { c, answer } = identified.find((i) => i.c.id === 'h07')!
    const two = answer.hypotheses.slice(0, 2)
    expect(two.map((a) => a.polarity).sort()).toEqual(['NPN', 'PNP'])
    expect(two.filter((a) => isTruth(a, c.truth, c.lead_map as unknown as Record<string, string>))).toHaveLength(1)
    expect(answer.cannotTell.join(' ')).toContain('only how common each is')
  })

  test('each reading is explained, and what is ruled out names its reading', () => {
    const { answer } = identified.find((i) => i.c.id === 'h15')!
    expect(answer.evidence[0]).toMatch(
      /^Leads 2-\d and 2-\d both conduct with 2 positive, \d+ mV more to 3: 2 is the base of an NPN\.$/,
    )
    expect(answer.evidence.slice(1)).toHaveLength(6)
    expect(answer.evidence.join('\n')).toMatch(/2\+ 1-: 796 mV .*B to C of a silicon NPN BJT/)
    expect(answer.ruledOut.map((r) => r.what)).toContain('silicon PNP BJT')
  })
})

test('an answer is told no finer than it was found to hold', () => {
  expect([0.9998, 0.99, 0.734, 0.004, 0.0002].map(likelyText)).toEqual(['> 99 %', '99 %', '73 %', '0.4 %', '< 0.1 %'])
})

describe('what it cannot know', () => {
  const volts = (plus: number, minus: number, v: number): LeadReading => ({
    plus,
    minus,
    shows: { kind: 'volts', volts: v },
  })
  const open = (plus: number, minus: number): LeadReading => ({ plus, minus, shows: { kind: 'open' } })

  test('a reading against all the others is named', () => {
    const answer = identifyPart(
      [volts(1, 2, 0.655), volts(1, 3, 0.648), open(2, 1), open(3, 1), open(2, 3), volts(3, 2, 1.9)],
      { meter: digitalMeter },
    )
    expect(answer.contradiction ?? answer.evidence.join(' ')).toMatch(/3\+ 2-.*(Take that reading again|slip)/)
  })

  test('readings that fit nothing are said to fit nothing', () => {
    const answer = identifyPart(
      [volts(1, 2, 2.1), volts(2, 1, 0.9), volts(1, 3, 1.4), volts(3, 1, 2.4), volts(2, 3, 0.02), open(3, 2)],
      { meter: digitalMeter },
    )
    expect(answer.somethingElse).toBeGreaterThan(0.5)
    expect(answer.contradiction).toContain('No part that is known here')
  })

  test('an N and a P channel MOSFET show the same drop; the next test tells them apart', () => {
    const answer = identifyPart([open(1, 2), open(1, 3), open(2, 1), volts(2, 3, 0.56), open(3, 1), open(3, 2)], {
      meter: digitalMeter,
    })
    expect(answer.hypotheses.slice(0, 2).map((h) => `${h.family} ${h.polarity}`)).toEqual(['MOSFET N', 'MOSFET P'])
    expect(answer.next?.joined).toBeDefined()
  })

  test('with no reading at all the first test is offered', () =>
    expect(identifyPart([], { meter: digitalMeter, leads: 3 }).next?.bits).toBeGreaterThan(0.5))
})
