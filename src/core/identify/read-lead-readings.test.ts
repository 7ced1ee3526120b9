import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import oracle from './lead-pairs.ref.json'
import { digitalMeter, needleMeter } from './meter.ts'
import { leadReadingsExampleCsv, readLeadReadings } from './read-lead-readings.ts'
import { parseShows } from './shown-text.ts'

const read = (text: string) => readLeadReadings(text, { file: 'readings', meter: digitalMeter })
const faultsOf = (text: string): readonly string[] => {
  const said = read(text)
  return said.ok ? [] : said.faults.map(explain)
}

describe('readings between leads', () => {
  test('JSON: parts with tables at temperatures', () => {
    const said = read(JSON.stringify({ cases: oracle.cases.map(({ id, readings }) => ({ id, readings })) }))
    expect(said).toMatchObject({ ok: true })
    if (!said.ok) return
    expect(said.parts).toHaveLength(15)
    expect(said.parts[0]!.readings[0]).toEqual({
      plus: 1,
      minus: 2,
      temperatureC: 10,
      shows: { kind: 'volts', volts: 0.795544803 },
    })
    expect(said.parts[0]!.readings[2]!.shows).toEqual({ kind: 'leak', amperes: 6.69371225e-11, volts: 3 })
  })

  test('JSON: rows may tell what was shown in words', () => {
    const readings = [
      {
        columns: ['plus_lead', 'minus_lead', 'shows', 'joined', 'temperature'],
        rows: [
          [3, 1, 'h_FE 120', 'plus', ''],
          [2, 3, '180 kohm on 2M', '', 'warm'],
        ],
      },
    ]
    expect(read(JSON.stringify({ cases: [{ id: 'T7', readings }] }))).toEqual({
      ok: true,
      parts: [
        {
          part: 'T7',
          readings: [
            { plus: 3, minus: 1, joined: 'plus', shows: { kind: 'gain', gain: 120 } },
            { plus: 2, minus: 3, warmed: true, shows: { kind: 'ohms', ohm: 180e3, range: '2M' } },
          ],
        },
      ],
    })
    const bad = [{ columns: ['plus_lead', 'minus_lead', 'shows'], rows: [[3, 3, 'so so']] }]
    expect(faultsOf(JSON.stringify({ cases: [{ id: 'T7', readings: bad }] }))).toEqual([
      expect.stringMatching(/cases\[1\]\.readings\[1\]\.rows\[1\]\.shows.*"so so"/),
    ])
  })

  test('CSV: a gain says for which polarity, and a part may be warm', () => {
    const head = 'part,plus,minus,shows,joined,temperature\n'
    expect(read(`${head}X,3,1,h_FE 80,minus,\nX,1,3,90 kohm on 2M,,warm\n`)).toMatchObject({
      ok: true,
      parts: [{ readings: [{ joined: 'minus', shows: { kind: 'gain', gain: 80 } }, { warmed: true }] }],
    })
    expect(faultsOf(`${head}X,3,1,h_FE 80,,\n`)).toEqual([
      expect.stringMatching(/column "joined".*for which polarity the gain is\. Write plus for an NPN/),
    ])
  })

  test('CSV: the example', () => {
    const said = read(leadReadingsExampleCsv)
    expect(said.ok && said.parts.map((p) => [p.part, p.readings.length])).toEqual([
      ['T1', 6],
      ['T2', 4],
      ['T3', 3],
      ['D1', 2],
    ])
  })

  test.each([
    ['652 mV', { kind: 'volts', volts: 0.652 }],
    ['0,652 V', { kind: 'volts', volts: 0.652 }],
    ['0.652', { kind: 'volts', volts: 0.652 }],
    ['OL', { kind: 'open' }],
    ['4.7 kohm on 20k', { kind: 'ohms', ohm: 4700, range: '20k' }],
    ['open on 2M', { kind: 'open', range: '2M' }],
    ['2.5 uA at 3 V', { kind: 'leak', amperes: 2.5e-6, volts: 3 }],
  ])('%s', (text, shows) => expect(parseShows(text, digitalMeter)).toEqual({ ok: true, shows }))

  test('a current that the diode check does not drive is no leak', () =>
    expect(parseShows('0.652 A', digitalMeter)).toMatchObject({
      ok: false,
      problem: 'is more current than a diode check drives, which would show a voltage',
    }))

  test('ranges of a needle meter', () =>
    expect(parseShows('330 ohm on x10', needleMeter)).toEqual({
      ok: true,
      shows: { kind: 'ohms', ohm: 330, range: 'x10' },
    }))

  test('every fault at once, with place, value and mend', () => {
    const said = faultsOf('part,plus,minus,shows\nA,1,4,0.6 V\nA,1,1,open\n,1,2,4k7\nA,1,2,-0.6 V\nA,2,1,hot\n')
    expect(said).toHaveLength(6)
    expect(said[0]).toBe('readings, row 2, column "minus": "4" is no lead. Number the leads 1 to 3.')
    expect(said.join('\n')).toMatch(/"4k7" is resistance without its range\. Add the range, as in 4k7 on 20k/)
  })

  test('JSON: a row that cannot be is named', () => {
    const columns = ['plus_lead', 'minus_lead', 'v', 'i', 'state']
    const rows = [
      [1, 2, 0.6, 0.001, 'constant current'],
      [1, 5, 0.6, 0.001, 'constant current'],
      [2, 2, 3, 0, 'compliance'],
    ]
    const said = faultsOf(JSON.stringify({ cases: [{ id: 'A', readings: [{ columns, rows }] }] }))
    expect(said).toHaveLength(2)
    expect(said[0]).toContain('cases[1].readings[1].rows[2].minus_lead')
  })
})
