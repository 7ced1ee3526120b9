import { describe, expect, test } from 'vitest'
import { type IdentifiedAs, identifyPart } from './identify.ts'
import { digitalMeter, type LeadReading } from './meter.ts'
import table from './meter-readings.ref.json'
import { parseShows } from './shown-text.ts'

/**
 * The table of what a meter shows on each kind of part (common practice), asked back: what is a part that shows it? Every
 * row of it stands here. A value is one out of the span printed in the table; a pair that is left out shows open.
 */
interface Case {
  readonly device: string
  readonly state: string
  /** Electrodes at leads 1, 2, 3. */
  readonly leads: readonly string[]
  readonly shows: Readonly<Record<string, string>>
  /** What was read beside the diode check of each pair: ohms, gains, the third lead joined. */
  readonly more?: readonly (readonly [pair: string, shows: string, joined?: 'plus' | 'minus'])[]
  readonly is: string
  /** It shows the same as others do: it is among those that are named, and none of them is sure. */
  readonly isChoice?: true
}

const good = 'good'
const npn = { leads: ['E', 'B', 'C'], shows: { 'B+ E-': '0.66 V', 'B+ C-': '0.654 V' } } as const

const cases: readonly Case[] = [
  { device: 'diode Si', state: good, leads: ['A', 'K'], shows: { 'A+ K-': '0.6 V' }, is: 'silicon diode' },
  {
    device: 'diode Ge point contact',
    state: good,
    leads: ['K', 'A'],
    shows: { 'A+ K-': '0.32 V' },
    more: [['K+ A-', '200 kohm on 2M']],
    is: 'germanium diode',
  },
  { device: 'diode Schottky', state: good, leads: ['A', 'K'], shows: { 'A+ K-': '0.17 V' }, is: 'Schottky diode' },
  {
    device: 'diode Schottky',
    state: good,
    leads: ['A', 'K'],
    shows: { 'A+ K-': '0.2 V' },
    more: [['K+ A-', '300 kohm on 2M']],
    is: 'Schottky diode',
    isChoice: true,
  },
  {
    device: 'zener <= ~2.4 V or below meter open voltage',
    state: good,
    leads: ['A', 'K'],
    shows: { 'A+ K-': '0.72 V', 'K+ A-': '2.4 V' },
    is: 'silicon Zener diode',
  },
  {
    device: 'diode',
    state: 'shorted',
    leads: ['A', 'K'],
    shows: { 'A+ K-': '1 mV', 'K+ A-': '1 mV' },
    is: 'a part that is short',
  },
  { device: 'diode', state: 'open', leads: ['A', 'K'], shows: {}, is: 'a part that is open' },
  { device: 'NPN Si', state: good, ...npn, is: 'silicon NPN BJT' },
  {
    device: 'PNP Si',
    state: good,
    leads: ['C', 'B', 'E'],
    shows: { 'E+ B-': '0.66 V', 'C+ B-': '0.652 V' },
    is: 'silicon PNP BJT',
  },
  {
    device: 'NPN Ge',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'B+ E-': '0.22 V', 'B+ C-': '0.21 V' },
    more: [
      ['C+ E-', '250 uA at 3 V'],
      ['C+ B-', '4 uA at 3 V'],
    ],
    is: 'germanium NPN BJT',
  },
  {
    device: 'PNP Ge',
    state: good,
    leads: ['E', 'B', 'C'],
    shows: { 'E+ B-': '0.25 V', 'C+ B-': '0.24 V' },
    more: [['E+ C-', '100 uA at 3 V']],
    is: 'germanium PNP BJT',
  },
  {
    device: 'BJT',
    state: 'B-E open',
    leads: ['B', 'C', 'E'],
    shows: { 'B+ C-': '0.66 V' },
    is: 'silicon NPN BJT (emitter open)',
    isChoice: true,
  },
  {
    device: 'BJT',
    state: 'C-E short',
    leads: ['E', 'B', 'C'],
    shows: { 'C+ E-': '1 mV', 'E+ C-': '1 mV', 'B+ E-': '0.66 V', 'B+ C-': '0.66 V' },
    is: 'silicon NPN BJT (collector-emitter short)',
  },
  {
    device: 'BJT',
    state: 'C-B short',
    leads: ['B', 'C', 'E'],
    shows: { 'B+ C-': '1 mV', 'C+ B-': '1 mV', 'B+ E-': '0.63 V', 'C+ E-': '0.63 V' },
    is: 'silicon NPN BJT (collector-base short)',
    isChoice: true,
  },
  {
    device: 'BJT',
    state: 'E-B degraded (avalanched)',
    ...npn,
    more: [['C+ E-', 'h_FE 1', 'plus']],
    is: 'silicon NPN BJT (worn emitter junction)',
  },
  {
    device: 'NPN Darlington',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'B+ E-': '1.25 V', 'B+ C-': '0.62 V', 'E+ C-': '0.52 V' },
    more: [['E+ B-', '7 kohm on 20k']],
    is: 'silicon NPN Darlington',
  },
  {
    device: 'PNP Darlington',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'E+ B-': '1.25 V', 'C+ B-': '0.62 V', 'C+ E-': '0.52 V' },
    is: 'silicon PNP Darlington',
  },
  {
    device: 'NPN with damper diode and B-E resistor (TV line output)',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: { 'B+ E-': '0.04 V', 'E+ B-': '0.04 V', 'B+ C-': '0.49 V', 'E+ C-': '0.475 V' },
    more: [['B+ E-', '40 ohm on 200']],
    is: 'silicon NPN BJT with damper diode C-E and internal base-emitter resistor',
  },
  {
    device: 'NPN digital (built-in R1, R2)',
    state: good,
    leads: ['B', 'C', 'E'],
    shows: {},
    more: [
      ['B+ E-', '20 kohm on 200k'],
      ['E+ B-', '20 kohm on 200k'],
      ['C+ E-', 'open on 2M'],
      ['C+ B-', 'open on 2M'],
    ],
    is: 'silicon NPN digital transistor with internal base resistors',
    isChoice: true,
  },
  {
    device: 'N JFET',
    state: good,
    leads: ['D', 'S', 'G'],
    shows: { 'G+ S-': '0.65 V', 'G+ D-': '0.66 V', 'D+ S-': '0.2 V', 'S+ D-': '0.2 V' },
    more: [['D+ S-', '210 ohm on 2k']],
    is: 'silicon N JFET',
  },
  {
    device: 'P JFET',
    state: good,
    leads: ['D', 'G', 'S'],
    shows: { 'S+ G-': '0.65 V', 'D+ G-': '0.66 V', 'D+ S-': '0.3 V', 'S+ D-': '0.3 V' },
    more: [['D+ S-', '310 ohm on 2k']],
    is: 'silicon P JFET',
  },
  {
    device: 'N MOSFET enhancement (vertical)',
    state: 'good, gate discharged',
    leads: ['G', 'D', 'S'],
    shows: { 'S+ D-': '0.55 V' },
    is: 'silicon N enhancement MOSFET with body diode',
  },
  {
    device: 'P MOSFET enhancement',
    state: 'good, gate discharged',
    leads: ['D', 'G', 'S'],
    shows: { 'D+ S-': '0.55 V' },
    is: 'silicon P enhancement MOSFET with body diode',
    isChoice: true,
  },
  {
    device: 'MOSFET depletion / dual gate',
    state: good,
    leads: ['D', 'G', 'S'],
    shows: { 'D+ S-': '0.46 V', 'S+ D-': '0.45 V' },
    is: 'silicon N depletion MOSFET',
    isChoice: true,
  },
  {
    device: 'MOSFET',
    state: 'gate punctured',
    leads: ['G', 'D', 'S'],
    shows: { 'G+ S-': '2 mV', 'S+ G-': '2 mV', 'S+ D-': '0.55 V', 'G+ D-': '0.551 V' },
    is: 'silicon N enhancement MOSFET with body diode (gate-source short)',
  },
  {
    // gate and drain are one: what is left conducts above its threshold
    device: 'MOSFET',
    state: 'gate punctured',
    leads: ['G', 'D', 'S'],
    shows: {
      'G+ D-': '2 mV',
      'D+ G-': '2 mV',
      'S+ D-': '0.55 V',
      'S+ G-': '0.551 V',
      'D+ S-': '2.1 V',
      'G+ S-': '2.1 V',
    },
    is: 'silicon N enhancement MOSFET with body diode (gate-drain short)',
  },
  {
    device: 'SCR',
    state: good,
    leads: ['K', 'A', 'G'],
    shows: { 'G+ K-': '0.65 V' },
    more: [['A+ K-', '0.75 V', 'plus']],
    is: 'silicon P-gate SCR',
  },
  {
    device: 'SCR',
    state: good,
    leads: ['K', 'A', 'G'],
    shows: { 'G+ K-': '0.05 V', 'K+ G-': '0.05 V' },
    more: [['G+ K-', '50 ohm on 200']],
    is: 'silicon P-gate SCR',
    isChoice: true,
  },
  {
    device: 'triac',
    state: good,
    leads: ['MT1', 'MT2', 'G'],
    shows: { 'MT1+ G-': '0.08 V', 'G+ MT1-': '0.08 V' },
    more: [['MT1+ G-', '80 ohm on 200']],
    is: 'silicon triac',
    isChoice: true,
  },
  {
    device: 'UJT (2N2646)',
    state: good,
    leads: ['E', 'B1', 'B2'],
    shows: { 'E+ B1-': '1.9 V', 'E+ B2-': '1.7 V' },
    more: [
      ['B1+ B2-', '6.8 kohm on 20k'],
      ['B2+ B1-', '6.8 kohm on 20k'],
    ],
    is: 'silicon N UJT',
  },
  {
    device: 'PUT',
    state: good,
    leads: ['A', 'G', 'K'],
    shows: { 'A+ G-': '0.6 V' },
    is: 'silicon N-gate PUT',
    isChoice: true,
  },
  { device: 'LED red', state: good, leads: ['K', 'A'], shows: { 'A+ K-': '1.7 V' }, is: 'III-V LED' },
  {
    device: 'selenium stack',
    state: 'usable',
    leads: ['A', 'K'],
    shows: {},
    more: [
      ['K+ A-', '300 kohm on 2M'],
      ['A+ K-', '4.2 V from 12 V'],
    ],
    is: 'selenium rectifier stack',
  },
]

const rowOf = (c: Case) => table.rows.find((r) => r.device === c.device && r.state === c.state)

const factors: Readonly<Record<string, number>> = { k: 1e3, kohm: 1e3, M: 1e6, mV: 1e-3 }

/** Spans printed as `0.50-0.75 V`, `10 k - 500 k`, `4.7-9.1 kohm`, `~0.1 V`: low and high, of volts or of ohms. */
function spans(printed: string): readonly (readonly [low: number, high: number])[] {
  const span = /(\d+(?:\.\d+)?)\s*(k|M|ohm)?\s*-\s*(\d+(?:\.\d+)?)\s*(kohm|ohm|k|M|V)/g
  const about = [...printed.matchAll(/~(\d\.\d) V/g)].map(([, v]) => [Number(v) / 2, 2 * Number(v)] as const)
  const all = [...printed.matchAll(span)].map(
    ([, low, lowUnit, high, unit]) =>
      [Number(low) * (factors[lowUnit ?? unit!] ?? 1), Number(high) * (factors[unit!] ?? 1)] as const,
  )
  return [...all, ...about]
}

function shownIn(text: string): LeadReading['shows'] {
  const read = parseShows(text, digitalMeter)
  if (!read.ok) throw new Error(`${text} ${read.problem}`)
  return read.shows
}

/** Volts of a drop, ohms of a resistance or of a leak; nothing of what the table has no number for. */
function numberOf(shown: LeadReading['shows']): number | undefined {
  if (shown.kind === 'volts') return shown.volts
  if (shown.kind === 'leak') return shown.volts / shown.amperes
  return shown.kind === 'ohms' ? shown.ohm : undefined
}

function readings({ leads, shows, more = [] }: Case): readonly LeadReading[] {
  const at = (pair: string, text: string, joined?: 'plus' | 'minus'): LeadReading => {
    const [plus, minus] = pair.split(/[+-]\s?/) as [string, string]
    const put = { plus: leads.indexOf(plus) + 1, minus: leads.indexOf(minus) + 1 }
    return { ...put, ...(joined === undefined ? {} : { joined }), shows: shownIn(text) }
  }
  const pairs = leads.flatMap((a) => leads.filter((b) => b !== a).map((b) => `${a}+ ${b}-`))
  return [...pairs.map((p) => at(p, shows[p] ?? 'open')), ...more.map((m) => at(...m))]
}

const said = (all: readonly IdentifiedAs[]): string =>
  all.map((h) => `${h.probability.toFixed(3)} ${h.text} ${JSON.stringify(h.leads)}`).join('\n')

/** Whether an answer puts the electrodes where they are, as far as it tells them apart. */
const hasLeads = (a: IdentifiedAs, leads: readonly string[]): boolean =>
  leads.every((e, k) => a.leads[String(k + 1)]!.split(' or ').includes(e))

describe('what a meter shows (common practice) is read back', () => {
  test('every row of the table stands here', () => {
    const missing = table.rows.filter((r) => !cases.some((c) => rowOf(c) === r))
    expect(missing.map((r) => `${r.device}, ${r.state}`)).toEqual([])
  })

  test.each(cases)('$device, $state: values are those of the table', (c) => {
    const row = rowOf(c)!
    const texts = [...Object.entries(c.shows), ...(c.more ?? []).filter(([, , joined]) => joined === undefined)]
    for (const [pair, text] of texts) {
      const printed = spans((row.pairs as Readonly<Record<string, string | undefined>>)[pair] ?? '')
      const shown = shownIn(text)
      const value = numberOf(shown)
      const ofUnit = printed.filter(([, high]) => high > 9 === (shown.kind !== 'volts'))
      if (value === undefined || ofUnit.length === 0) continue
      expect(
        ofUnit.some(([low, high]) => value >= low && value <= high),
        `${pair} ${text}: ${JSON.stringify(printed)}`,
      ).toBe(true)
    }
  })

  test.each(cases.filter((c) => c.isChoice === undefined))('$device, $state', (c) => {
    const { hypotheses } = identifyPart(readings(c), { meter: digitalMeter, leads: c.leads.length })
    expect(hypotheses[0]!.text, said(hypotheses)).toBe(c.is)
    const isDead = c.is.startsWith('a part that')
    expect(isDead || hasLeads(hypotheses[0]!, c.leads), said(hypotheses)).toBe(true)
  })

  test.each(cases.filter((c) => c.isChoice))('$device, $state: others show the same, and it is among them', (c) => {
    const { hypotheses } = identifyPart(readings(c), { meter: digitalMeter, leads: c.leads.length })
    const own = hypotheses.filter((h) => h.text === c.is && hasLeads(h, c.leads))
    expect(own, said(hypotheses)).not.toEqual([])
    expect(hypotheses[0]!.probability, said(hypotheses)).toBeLessThan(0.99)
  })

  test('a thyristor with a shorted emitter and a triac show the same: both stay in the running', () => {
    const answer = identifyPart(readings(cases.find((c) => c.device === 'triac')!), { meter: digitalMeter, leads: 3 })
    const both = answer.hypotheses.filter((h) => ['SCR', 'triac'].includes(h.family))
    expect(both.reduce((s, h) => s + h.probability, 0)).toBeGreaterThan(0.85)
  })
})
