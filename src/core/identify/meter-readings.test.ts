import { describe, expect, test } from 'vitest'
import { identifyPart } from './identify.ts'
import { digitalMeter, type LeadReading } from './meter.ts'
import table from './meter-readings.ref.json'

/**
 * The table of what a meter shows on each kind of part (common practice), asked back: what is a part that shows it? A
 * value is one from the middle of the span printed in the table; a pair that is left out shows open. Each case says
 * where the electrodes are, and what has to come first.
 */
interface Case {
  readonly device: string
  readonly state: string
  readonly leads: readonly string[]
  readonly shows: Readonly<Record<string, number>>
  readonly is: string
  /** The values are 1 mA through the ohms of the table. */
  readonly ohms?: boolean
}

const good = 'good'
const cases: readonly Case[] = [
  { device: 'diode Si', state: good, leads: ['A', 'K'], shows: { 'A+ K-': 0.6 }, is: 'silicon diode' },
  { device: 'diode Ge point contact', state: good, leads: ['K', 'A'], shows: { 'A+ K-': 0.32 }, is: 'germanium diode' },
  { device: 'diode Schottky', state: good, leads: ['A', 'K'], shows: { 'A+ K-': 0.17 }, is: 'Schottky diode' },
  {
    device: 'diode',
    state: 'shorted',
    leads: ['A', 'K'],
    shows: { 'A+ K-': 0.001, 'K+ A-': 0.001 },
    is: 'a part that is short',
  },
  { device: 'diode', state: 'open', leads: ['A', 'K'], shows: {}, is: 'a part that is open' },
  { device: 'LED red', state: good, leads: ['K', 'A'], shows: { 'A+ K-': 1.7 }, is: 'III-V LED' },
  {
    device: 'zener <= ~2.4 V or below meter open voltage',
    state: good,
    leads: ['A', 'K'],
    shows: { 'A+ K-': 0.72, 'K+ A-': 2.4 },
    is: 'silicon Zener diode',
  },
  {
    device: 'MOSFET',
    state: 'gate punctured',
    leads: ['G', 'D', 'S'],
    shows: { 'G+ S-': 0.002, 'S+ G-': 0.002, 'S+ D-': 0.55, 'G+ D-': 0.551 },
    is: 'silicon N enhancement MOSFET with body diode (gate-source short)',
  },
  {
    device: 'NPN Si',
    state: good,
    leads: ['E', 'B', 'C'],
    shows: { 'B+ E-': 0.66, 'B+ C-': 0.654 },
    is: 'silicon NPN BJT',
  },
  {
    device: 'PNP Si',
    state: good,
    leads: ['C', 'B', 'E'],
    shows: { 'E+ B-': 0.66, 'C+ B-': 0.652 },
    is: 'silicon PNP BJT',
  },
  {
    device: 'NPN Ge',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'B+ E-': 0.22, 'B+ C-': 0.21 },
    is: 'germanium NPN BJT',
  },
  {
    device: 'PNP Ge',
    state: good,
    leads: ['E', 'B', 'C'],
    shows: { 'E+ B-': 0.25, 'C+ B-': 0.24 },
    is: 'germanium PNP BJT',
  },
  {
    device: 'BJT',
    state: 'C-E short',
    leads: ['E', 'B', 'C'],
    shows: { 'C+ E-': 0.001, 'E+ C-': 0.001, 'B+ E-': 0.66, 'B+ C-': 0.66 },
    is: 'silicon NPN BJT (collector-emitter short)',
  },
  {
    device: 'NPN Darlington',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'B+ E-': 1.25, 'B+ C-': 0.62, 'E+ C-': 0.52 },
    is: 'silicon NPN Darlington',
  },
  {
    device: 'PNP Darlington',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'E+ B-': 1.25, 'C+ B-': 0.62, 'C+ E-': 0.52 },
    is: 'silicon PNP Darlington',
  },
  {
    device: 'NPN with damper diode and B-E resistor (TV line output)',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'B+ E-': 0.04, 'E+ B-': 0.04, 'B+ C-': 0.47, 'E+ C-': 0.49 },
    is: 'silicon NPN BJT with damper diode C-E and internal base-emitter resistor',
  },
  {
    device: 'N JFET',
    state: good,
    leads: ['D', 'S', 'G'],
    shows: { 'G+ S-': 0.65, 'G+ D-': 0.66, 'D+ S-': 0.2, 'S+ D-': 0.2 },
    is: 'silicon N JFET',
  },
  {
    device: 'P JFET',
    state: good,
    leads: ['D', 'G', 'S'],
    shows: { 'S+ G-': 0.65, 'D+ G-': 0.66, 'D+ S-': 0.3, 'S+ D-': 0.3 },
    is: 'silicon P JFET',
  },
  {
    device: 'N MOSFET enhancement (vertical)',
    state: 'good, gate discharged',
    leads: ['G', 'D', 'S'],
    shows: { 'S+ D-': 0.55 },
    is: 'silicon N enhancement MOSFET with body diode',
  },
  {
    device: 'MOSFET depletion / dual gate',
    state: good,
    leads: ['D', 'G', 'S'],
    shows: { 'D+ S-': 0.45, 'S+ D-': 0.46 },
    is: 'silicon N depletion MOSFET',
  },
  {
    device: 'SCR',
    state: good,
    leads: ['K', 'A', 'G'],
    shows: { 'G+ K-': 0.05, 'K+ G-': 0.05 },
    is: 'silicon triac',
    ohms: true,
  },
  { device: 'UJT (2N2646)', state: good, leads: ['E', 'B1', 'B2'], shows: { 'E+ B1-': 1.9 }, is: 'silicon N UJT' },
]

const rowOf = (c: Case) => table.rows.find((r) => r.device === c.device && r.state === c.state)!

/** Spans printed as `0.50-0.75 V`, `1.1-1.4 V`. */
type Spans = readonly (readonly [low: number, high: number])[]
const spans = (text: string): Spans =>
  [...text.matchAll(/(\d+\.\d+)-(\d+\.\d+)/g)].map((m) => [Number(m[1]), Number(m[2])])

function readings({ leads, shows }: Case): readonly LeadReading[] {
  return leads.flatMap((a, i) =>
    leads.flatMap((b, j): LeadReading[] => {
      if (i === j) return []
      const v = shows[`${a}+ ${b}-`]
      return [{ plus: i + 1, minus: j + 1, shows: v === undefined ? { kind: 'open' } : { kind: 'volts', volts: v } }]
    }),
  )
}

describe('what a meter shows (common practice) is read back', () => {
  test.each(cases)('$device, $state', (c) => {
    const row = rowOf(c)
    for (const [pair, v] of Object.entries(c.shows)) {
      const printed = (row.pairs as Readonly<Record<string, string | undefined>>)[pair] ?? ''
      if (c.ohms === true || spans(printed).length === 0) continue
      expect(
        spans(printed).some(([low, high]) => v >= low && v <= high),
        `${pair} ${v}: ${printed}`,
      ).toBe(true)
    }
    const answer = identifyPart(readings(c), { meter: digitalMeter, leads: c.leads.length })
    const said = answer.hypotheses.map((h) => `${h.probability.toFixed(3)} ${h.text} ${JSON.stringify(h.leads)}`)
    expect(answer.hypotheses[0]!.text, said.slice(0, 4).join('\n')).toBe(c.is)
  })

  test.each([
    ['P MOSFET enhancement', ['D', 'G', 'S'], { 'D+ S-': 0.55 }, 'silicon P enhancement MOSFET with body diode'],
    ['BJT, B-E open', ['B', 'C', 'E'], { 'B+ C-': 0.66 }, 'silicon NPN BJT (emitter open)'],
    [
      'BJT, C-B short',
      ['B', 'C', 'E'],
      { 'B+ C-': 0.001, 'C+ B-': 0.001, 'B+ E-': 0.63, 'C+ E-': 0.63 },
      'silicon NPN BJT (collector-base short)',
    ],
    ['PUT', ['A', 'G', 'K'], { 'A+ G-': 0.6 }, 'silicon N-gate PUT'],
  ] as const)('%s: what it shows leaves a choice, and it is in it', (_, leads, shows, is) => {
    const answer = identifyPart(readings({ device: '', state: '', leads, shows, is }), {
      meter: digitalMeter,
      leads: 3,
    })
    expect(answer.hypotheses.map((h) => h.text)).toContain(is)
    expect(answer.hypotheses[0]!.probability).toBeLessThan(0.9)
  })

  test('a thyristor with a shorted emitter and a triac show the same: both stay in the running', () => {
    const answer = identifyPart(readings(cases.find((c) => c.device === 'SCR')!), { meter: digitalMeter, leads: 3 })
    const both = answer.hypotheses.filter((h) => ['SCR', 'triac'].includes(h.family))
    expect(both.reduce((s, h) => s + h.probability, 0)).toBeGreaterThan(0.85)
  })
})
