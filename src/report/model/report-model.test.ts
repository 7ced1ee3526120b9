import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { leaf } from '#core/quantity'
import type { PartResult } from '#core/reduce'
import { sampleLot, samplePart } from '#report/testing'
import { figureText } from '#report/typeset'
import type { ReportInput } from './report-input.ts'
import { reportModel } from './report-model.ts'

const lot = reportModel(sampleLot)
const part = reportModel(samplePart)

const manyParts = (n: number): readonly PartResult[] =>
  Array.from({ length: n }, (_, i) => ({
    part: `P${i + 1}`,
    state: 'measured',
    doubts: [],
    parameters: [
      {
        part: `P${i + 1}`,
        symbol: 'h_FE',
        quantity: leaf(50 + (i % 90), '1', { kind: 'read', what: 'h_FE', seen: '80' }),
        conditions: {},
        temperatureC: 20,
        temperatureU: 1,
        points: [1],
        standing: 'measured',
        doubts: [],
      },
    ],
  }))

const bigLot = (n: number, more: Partial<ReportInput> = {}): ReportInput => ({
  ...sampleLot,
  results: manyParts(n),
  verdicts: [],
  readings: [],
  ...more,
})

describe('a lot', () => {
  test('counts how the parts came out', () =>
    expect(lot.summary).toEqual([
      { outcome: 'conforms', parts: 8 },
      { outcome: 'does not conform', parts: 2 },
      { outcome: 'undecided', parts: 1 },
      { outcome: 'not judged', parts: 1 },
      { outcome: 'short', parts: 1 },
    ]))

  test('names first what did not simply conform, and by which parameter', () =>
    expect(lot.lead.map((l) => [l.say, ...l.parts.map((p) => `${p.tag} ${p.because.join(' ')}`.trim())])).toEqual([
      ['Outside a limit', 'L-07 h_FE', 'L-08 I_CEO'],
      ['Undecided', 'L-09 h_FE'],
      ['Not held against any limit', 'L-11'],
      ['Shorted', 'L-10'],
    ]))

  test('says what, when, with what, how warm and by which rule', () =>
    expect(Object.fromEntries(lot.about.map((f) => [f.name, f.text]))).toEqual({
      Parts: '13 parts: AC128, ASY27, unknown type and OA81',
      Read: '24 November 1968',
      Tester: 'Needle tester, bench two',
      Ambient: '21.5 \u00b1 1.0 \u00b0C',
      Rule: 'Guarded: a verdict needs 95 % either way, else it is undecided',
      Printed: '25 November 1968',
    }))

  test('has a table for each family, with the parameters its parts have', () => {
    expect(lot.tables.map((t) => [t.caption, t.columns.map((c) => c.symbol)])).toEqual([
      ['Transistors: 10 parts', ['h_FE', 'I_CEO', 'V_BE']],
      ['Parts of unknown type: 1 part', ['h_FE', 'I_CEO', 'V_BE']],
      ['Diodes: 2 parts', ['V_F', 'I_R']],
    ])
  })

  test('a row gives each value with half its 95 % interval, and how it was judged', () => {
    const row = lot.tables[0]!.rows.find((r) => r.tag === 'L-09')!
    expect(row.cells.map((c) => figureText(c!.figure))).toEqual([
      '60.4 \u00b1 1.2',
      '310 \u00b1 8 \u00b5A',
      '230 \u00b1 4 mV',
    ])
    expect(row.cells.map((c) => c?.outcome)).toEqual(['undecided', undefined, undefined])
    expect([row.outcome, row.because]).toEqual(['undecided', ['h_FE']])
  })

  test('a shorted part has a row without values and a section that says so', () => {
    const row = lot.tables[0]!.rows.find((r) => r.tag === 'L-10')!
    expect(row.cells).toEqual([null, null, null])
    expect(lot.sections.find((s) => s.tag === 'L-10')).toMatchObject({
      outcome: 'short',
      lead: 'Shorted: nothing was measured after the short check.',
      results: [],
    })
  })

  test('one limit not comparable beside one that is met leaves the part conforming', () => {
    const row = lot.tables[2]!.rows.find((r) => r.tag === 'D-2')!
    expect([row.outcome, row.cells[1]!.outcome]).toEqual(['conforms', 'not comparable'])
  })

  test('has a plot for each judged parameter, in groups of one limit, and gain against leakage', () => {
    expect(lot.plots.map((p) => p.plot.title)).toEqual([
      'Current gain, h FE, against its limits',
      'Leakage, base open, I CEO, against its limits',
      'Forward voltage, V F, against its limits',
      'Reverse leakage, I R, against its limits',
      'Gain against leakage',
    ])
    const gain = lot.plots[0]!
    if (gain.kind !== 'interval') throw new Error('not an interval plot')
    expect(gain.plot.axis.kind).toBe('log')
    expect(gain.plot.groups.map((g) => [g.label, g.at, g.limits.map((l) => l.label), g.rows.length])).toEqual([
      ['AC128', 'I_C 50 mA, V_CE 1 V, 25 \u00b0C', ['min 60', 'max 175'], 7],
      ['ASY27', 'I_C 20 mA, V_CE 500 mV, 25 \u00b0C', ['min 50', 'max 150'], 2],
    ])
  })

  test('lists each limit once, with where it comes from', () => {
    expect(lot.limits.map((l) => [l.type, l.symbol, l.source])).toEqual([
      ['AC128', 'h_FE', 'from memory: check the datasheet'],
      ['AC128', 'I_CEO', 'from memory: check the datasheet'],
      ['ASY27', 'h_FE', 'from memory: check the datasheet'],
      ['OA81', 'V_F', 'Maker\u2019s datasheet, germanium point-contact diodes (1966), p. 2'],
      ['OA81', 'I_R', 'Maker\u2019s datasheet, germanium point-contact diodes (1966), p. 2'],
    ])
  })

  test('all conforming is said in one sentence', () => {
    const good = sampleLot.results.slice(0, 6)
    const tags = new Set(good.map((r) => r.part))
    const model = reportModel({
      ...sampleLot,
      results: good,
      verdicts: sampleLot.verdicts.filter((v) => tags.has(v.part)),
    })
    expect(model.lead.map((l) => l.say)).toEqual(['All 6 parts conform.'])
  })

  test('an empty lot says what to do first', () =>
    expect(reportModel({ ...sampleLot, results: [], verdicts: [], readings: [] }).lead.map((l) => l.say)).toEqual([
      'No parts yet: take readings of a part, and print again.',
    ]))
})

describe('the section of a part', () => {
  const section = part.sections[0]!
  const gain = section.results[0]!

  test('says what kind of part it is and how it came out', () => {
    expect(section.kind).toBe('germanium PNP transistor, TO-1, leads E-B-C (seen from below)')
    expect(section.lead).toBe('The readings leave open whether it meets its limit: h_FE.')
  })

  test('gives a verdict with limit, conditions, odds, provenance and what would settle it', () => {
    const [verdict] = gain.verdicts
    expect(verdict).toMatchObject({
      outcome: 'undecided',
      probability: '58 %',
      bounds: { min: { number: '60', unit: '' }, max: { number: '175', unit: '' } },
      settle: 'Read the base current on the 100 uA range; half the doubt is enough to decide.',
      source: 'from memory: check the datasheet',
    })
    expect(verdict!.conditions.map((c) => c.symbol)).toEqual(['I_C', 'V_CE', 'T'])
  })

  test('works each number out: formula, numbers put in, what was read', () => {
    expect(gain.working!.steps.map((s) => [s.symbol, s.putIn ?? s.known])).toEqual([
      ['h_FE', '(10.04 mA - 310 \u00b5A) / 161 \u00b5A'],
      ['I_C', 'read: 10.04 mA'],
      ['I_CEO', 'read: 310 uA'],
      ['I_B', 'read: 161.0 uA'],
    ])
    expect(gain.working!.steps[0]!.formula).toBe('h_FE0 = (I_C - I_CEO) / I_B')
    expect(gain.working!.steps[0]!.source).toContain('common practice')
  })

  test('the budget names its causes, largest first, and adds up', () => {
    const bars = gain.working!.budget!.bars
    expect(bars[0]!.label).toBe('shunt of range 25 mA, 1 %')
    expect(bars.map((b) => b.share)).toEqual([...bars.map((b) => b.share)].sort((a, b) => b - a))
    expect(bars.reduce((sum, b) => sum + b.share, 0)).toBeCloseTo(1, 12)
  })

  test('says what stands behind the plus-minus sign', () =>
    expect(gain.working!.coverage).toMatch(/^Standard uncertainty 0\.6\d; \u00b1 is \d\.\d\d times that/))

  test('shows the readings as they were seen', () =>
    expect(section.readings.map((r) => [r.reads, r.seen, r.range])).toEqual([
      ['short', 'clear', ''],
      ['I_CEO', '0.21 mA', '1 mA, upper'],
      ['I_C', '20.2 div', '25 mA'],
      ['I_B', '17.8 div', '250 uA'],
    ]))

  test('has its trouble and doubts', () => {
    expect(lot.sections.find((s) => s.tag === 'L-05')!.trouble).toContain('Whiskers')
    expect(lot.sections.find((s) => s.tag === 'L-08')!.doubts[0]!.say).toContain('leaky')
  })

  test('without workings there are none', () => {
    const bare = reportModel({ ...samplePart, workings: 'none' })
    expect(bare.sections[0]!.results.map((r) => r.working)).toEqual([undefined, undefined, undefined])
  })
})

describe('cautions', () => {
  test('limits from memory are pointed out only where there are some', () => {
    const read = reportModel({
      ...sampleLot,
      verdicts: sampleLot.verdicts.filter((v) => !v.source.includes('from memory')),
    })
    expect(lot.cautions[0]).toContain('from memory')
    expect(read.cautions.join(' ')).not.toContain('from memory')
  })

  test('the datasheet rules, and this is no certificate', () =>
    expect(lot.cautions.slice(1)).toEqual([
      'Where this page and the maker\u2019s datasheet differ, the datasheet rules.',
      'This is a record of a bench test. It is not a calibration certificate and not a certificate of conformity.',
    ]))
})

describe('how much of a lot is shown', () => {
  test('up to 300 parts each has a section', () => {
    expect(reportModel(bigLot(300)).sections).toHaveLength(300)
    expect(reportModel(bigLot(300)).leftOut).toBeUndefined()
  })

  test('above that there is table and plots, and the page says so', () => {
    const model = reportModel(bigLot(301))
    expect([model.sections.length, model.tables[0]!.rows.length]).toEqual([0, 301])
    expect(model.leftOut).toBe(
      'No part has its own section here: this lot is shown by its table and plots. Ask for a report of a part by its tag to see its working.',
    )
  })

  test('the sections asked for are there, in the order of the lot', () => {
    const model = reportModel(bigLot(10_000, { sections: ['P9000', 'P7'] }))
    expect(model.sections.map((s) => s.tag)).toEqual(['P7', 'P9000'])
    expect(model.leftOut).toMatch(/^2 parts of 10,000 have their own section/)
    expect(model.tables[0]!.rows.filter((r) => r.section !== undefined).map((r) => r.tag)).toEqual(['P7', 'P9000'])
  })

  test('a long list of parts in the lead is cut short with a count', () => {
    const model = reportModel(bigLot(20))
    expect([model.lead[0]!.parts.length, model.lead[0]!.more]).toEqual([8, 12])
  })
})

describe('an input that cannot be used', () => {
  test('all its faults come together', () => {
    try {
      reportModel({ ...sampleLot, printedAt: 'yesterday', sections: ['L-01', 'L-99', 'Q'] })
      expect.unreachable()
    } catch (e) {
      if (!(e instanceof FaultError)) throw e
      expect(e.message.split('\n')).toEqual([
        'printedAt: "yesterday" is not a date. Write it as 1968-11-25.',
        'There is no part in this report called "L-99".',
        'There is no part in this report called "Q".',
      ])
    }
  })

  test.each(['1968-11-25', '1968-11-25T08:05', '2026-03-14T18:00:00.000Z'])('%s is a date', (printedAt) =>
    expect(reportModel({ ...samplePart, printedAt }).about.at(-1)!.text).toMatch(/^\d+ \w+ \d{4}(, \d\d:\d\d)?$/),
  )
})

test('the model is plain data', () => expect(JSON.parse(JSON.stringify(lot))).toEqual(lot))
