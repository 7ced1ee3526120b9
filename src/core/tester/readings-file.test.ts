import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import { readingsExampleCsv, readingsExampleJson, testerExample } from './example.ts'
import { readTester } from './read-tester.ts'
import type { Reading } from './reading.ts'
import { readingStates, type Shown } from './reading.ts'
import { readingsCsv, readingsSchema, readReadings } from './readings-file.ts'
import { tagProblem } from './tag.ts'
import { readingKinds } from './tester.ts'

const tester = (() => {
  const read = readTester(testerExample)
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  return read.tester
})()

const good = (text: string): readonly Reading[] => {
  const read = readReadings(text, { file: 'lot.csv', tester })
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  return read.readings
}

const faults = (text: string, withTester = true): readonly string[] => {
  const read = readReadings(text, { file: 'lot.csv', ...(withTester ? { tester } : {}) })
  return read.ok ? [] : read.faults.map(explain)
}

describe('tables', () => {
  test('the example reads, and says the same as the JSON example', () => {
    const table = good(readingsExampleCsv)
    expect(table[1]).toEqual({
      part: 'A1',
      type: '2N1305',
      reads: 'I_CEO',
      shown: { kind: 'deflection', divisions: 7.3 },
      seen: '7.3 div',
      range: '1 mA',
      point: 1,
      supplyV: 4.5,
      ambientC: 21,
      at: '2024-05-12T14:32',
    })
    const bare = (rs: readonly Reading[]) => rs.map(({ at: _, note: __, ...r }) => r)
    expect(bare(good(readingsExampleJson))).toEqual(bare(table))
  })

  test('what is read may be written in many ways', () => {
    const read = good(
      'Part,Reads,Shown,Range\nA,iceo,7.3 div,1mA\nA,I_CBO,12.5 uA,0.1 mA\nA,hfe,118,HIGH\nA,beta,60,low\nA,vbe,"0,21 V",1 V\nA,Short,OK,\nA,I_CEO,O.L.,10 mA\nA,h_FE,no null,\nA,I_CEO,0,1 mA',
    )
    expect(read.map((r) => [r.reads, r.range])).toEqual([
      ['I_CEO', '1 mA'],
      ['I_CBO', '100 uA'],
      ['h_FE', 'HIGH'],
      ['h_FE', 'low'],
      ['V_BE', '1 V'],
      ['short', undefined],
      ['I_CEO', '10 mA'],
      ['h_FE', undefined],
      ['I_CEO', '1 mA'],
    ])
    expect(read.map((r) => r.shown)).toMatchObject([
      { divisions: 7.3 },
      { value: 12.5e-6, unit: 'A' },
      { value: 118, unit: '1' },
      { value: 60 },
      { value: 0.21, unit: 'V' },
      { state: 'clear' },
      { state: 'over' },
      { state: 'no null' },
      { value: 0, unit: 'A' },
    ])
  })

  test('a unit in the header holds for bare cells, and what was seen keeps it', () => {
    const read = good('part;reads;shown [uA];range;ambient (C)\nA;I_CEO;12,5;100 uA;21,5\nA;I_CEO;7.3 div;100 uA;')
    expect(read[0]).toMatchObject({ shown: { value: 12.5e-6 }, seen: '12,5 uA', ambientC: 21.5 })
    expect(read[1]).toMatchObject({ shown: { divisions: 7.3 } })
  })

  test('all faults of a file come together, and no reading', () => {
    expect(
      faults(`part,reads,shown,range,scale,point,supply,ambient,at
,ICEOO,12,1 mA,,0,60 V,80,12/05/2024
A,I_CEO,51 div,1 mA,,,,,
A,I_CEO,-1 div,1 mA,,,,,
A,I_CEO,0.5 V,1 mA,,,,,2024-02-30
A,I_CEO,5 div,2 mA,,,,,
A,I_CEO,5 div,1 V,,,,,
A,I_CEO,5 div,1 mA,30,,,,
A,I_CEO,5 div,,,,,,
A,h_FE,5 div,high,,,,,
A,h_FE,900,high,,,,,
A,h_FE,90,hgih,,,,,
A,short,7,,,,,,
A,I_CEO,clear,1 mA,,,,,
A,I_CEO,,1 mA,,,,,
..,short,clear,,,,,,
`),
    ).toEqual([
      'lot.csv, row 2, column "part": "" is empty. Write the tag of the part.',
      'lot.csv, row 2, column "reads": "ICEOO" is not something that is read here. Did you mean I_CEO? Write one of: short, I_CEO, I_CBO, I_CES, I_EBO, I_C, I_B, h_FE, V_BE, V_CE, V_CE(sat), V_F, I_F, I_R.',
      'lot.csv, row 2, column "point": "0" is not a whole number from 1. Write 1, 2, 3 and so on.',
      'lot.csv, row 2, column "ambient": "80" is not an ambient temperature in degC. Write it as 21 degC.',
      'lot.csv, row 2, column "at": "12/05/2024" is not a date and time. Write year, month, day: 2024-05-12 or 2024-05-12 14:30.',
      'lot.csv, row 3, column "shown": "51 div" is beyond the end of the scale (50 divisions, 1 mA). Check the number, or read again on 10 mA.',
      'lot.csv, row 4, column "shown": "-1 div" is below zero. A needle that goes the wrong way calls for the other polarity or lead order; read again.',
      'lot.csv, row 5, column "shown": "0.5 V" is not in amperes, as I_CEO is. Write it as in 7.3 div or 12.5 uA.',
      'lot.csv, row 5, column "at": "2024-02-30" is not a date and time. Write year, month, day: 2024-05-12 or 2024-05-12 14:30.',
      'lot.csv, row 6, column "range": "2 mA" is not a range on Bench tester. Did you mean 1 mA? Its ranges here: 100 uA, 1 mA, 10 mA.',
      'lot.csv, row 7, column "range": "1 V" is a voltage range, and I_CEO is read in A. Write one of: 100 uA, 1 mA, 10 mA.',
      'lot.csv, row 8, column "scale": "30" is not a scale of Bench tester. Write one of: 100.',
      'lot.csv, row 9, column "range": "" is empty, and Bench tester reads I_CEO on several. Write one of: 100 uA, 1 mA, 10 mA.',
      'lot.csv, row 10, column "shown": "5 div" is not in plain numbers, as h_FE is. Write it as in 118.',
      'lot.csv, row 11, column "shown": "900" is off the span high. Check the number; spans of the dial: low (10 to 100), high (50 to 500).',
      'lot.csv, row 12, column "range": "hgih" is not a span of the gain dial. Did you mean high? Spans of the dial: low (10 to 100), high (50 to 500).',
      'lot.csv, row 13, column "shown": "7" is not the outcome of a short check. Write clear, short or open.',
      'lot.csv, row 14, column "shown": "clear" is the outcome of a short check, not of I_CEO. Write what was shown: 7.3 div or 12.5 uA.',
      'lot.csv, row 15, column "shown": "" is empty. Write what was shown: 7.3 div or 12.5 uA.',
      'lot.csv, row 16, column "part": ".." is no tag: in an address it means another place. Take one such as Q17.',
    ])
  })

  test('a supply beyond the tester, a bare number, and strange columns', () => {
    expect(faults('part,reads,shown,range,supply\nA,I_CEO,5 div,1 mA,60 V\nA,I_CEO,7.3,1 mA,')).toEqual([
      'lot.csv, row 2, column "supply": "60 V" is above the limit of Bench tester (15 V). Check the number.',
      'lot.csv, row 3, column "shown": "7.3" has no unit. Write it with its unit: 7.3 div, or as in 7.3 div or 12.5 uA.',
    ])
    expect(faults('part,read,show,ragne\nA,I_CEO,5 div,1 mA')).toEqual([
      'lot.csv, row 1, column "read": "read" is not a column that is known here. Did you mean reads?',
      'lot.csv, row 1, column "show": "show" is not a column that is known here. Did you mean shown?',
      'lot.csv, row 1, column "ragne": "ragne" is not a column that is known here. Did you mean range?',
      'lot.csv, row 1: "reads" is a column that is missing. Add it: What was read, by its symbol: I_CEO, h_FE, short.',
      'lot.csv, row 1: "shown" is a column that is missing. Add it: What was shown: 7.3 div, 12.5 uA, 118, clear, over.',
    ])
    expect(faults('part,reads,shown\n')).toEqual([
      'lot.csv, row 1: "the table" has no readings. Write one row per reading below the header.',
    ])
  })

  test('without a tester the form alone is checked', () => {
    expect(faults('part,reads,shown,range\nA,I_CEO,5000 div,nowhere', false)).toEqual([])
    expect(faults('part,reads,shown\nA,I_CEO,5 V', false)).toHaveLength(1)
  })
})

describe('documents', () => {
  test('faults name line, column and path', () => {
    expect(
      faults(`{ "format": "germane/readings/1",
  "ambient": "hot",
  "readings": [] , "more": 1 }`),
    ).toEqual([
      'lot.csv, line 3:15, readings: "[]" has too few items: it needs at least 1. Write the readings, in any order.',
      'lot.csv, line 3:20, more: "more" is not a key that is known here. Keys known here: format, ambient, readings.',
    ])
    expect(
      faults(`{ "format": "germane/readings/1",
  "readings": [
    { "part": "A", "reads": "I_CEO", "shown": "51 div", "range": "1 mA" },
    { "part": "A", "reads": "I_CEO", "shwn": "51 div", "range": "1 mA", "point": [1] } ] }`),
    ).toHaveLength(3)
    expect(
      faults(
        '{ "format": "germane/readings/1",\n "ambient": "hot",\n "readings": [{"part":"A","reads":"short","shown":"clear"}]}',
      ),
    ).toEqual([
      'lot.csv, line 2:13, ambient: "hot" does not begin with a number. Write a temperature in degrees Celsius, such as 25 degC.',
    ])
  })

  test('YAML will do as well, and the ambient temperature of the file holds where none is noted', () => {
    const read = good(`# a lot
format: germane/readings/1
ambient: 21 degC +- 0.5 degC
readings:
  - { part: 12, reads: I_CEO, shown: 7.3 div, range: 1 mA }
  - { part: 13, reads: h_FE, shown: 86, ambient: 25 degC }
`)
    expect(read[0]).toMatchObject({ part: '12', ambientC: 21, ambientU: 0.5 })
    expect(read[1]).toMatchObject({ part: '13', ambientC: 25 })
    expect(read[1]).not.toHaveProperty('ambientU')
  })

  test('the schema says what is read', () => {
    expect(readingsSchema()).toMatchObject({
      properties: { readings: { items: { required: ['part', 'reads', 'shown'] } } },
    })
  })
})

const shown: fc.Arbitrary<Shown> = fc.oneof(
  fc.record({ kind: fc.constant('deflection' as const), divisions: fc.double({ min: 0, max: 50, noNaN: true }) }),
  fc.record({
    kind: fc.constant('value' as const),
    value: fc.double({ min: 1e-12, max: 1e3, noNaN: true }),
    unit: fc.constant('A' as const),
  }),
  fc.record({
    kind: fc.constant('state' as const),
    state: fc.constantFrom(...readingStates.filter((s) => s !== 'clear' && s !== 'no null')),
  }),
)

test('what is written reads back as the same readings', () => {
  const word = fc.string({
    unit: fc.constantFrom('a', '1', '-', '"', ',', ';', '#', '.', 'é'),
    minLength: 1,
    maxLength: 8,
  })
  const reading = fc.record(
    {
      part: word.filter((tag) => tagProblem(tag) === undefined),
      type: word,
      reads: fc.constantFrom('I_CEO' as const, 'I_C' as const),
      shown,
      seen: fc.constant('as typed'),
      range: word,
      scale: word,
      point: fc.integer({ min: 1, max: 99 }),
      supplyV: fc.double({ min: 0.1, max: 60, noNaN: true }),
      ambientC: fc.integer({ min: 0, max: 40 }),
      at: fc.constant('2024-05-12T14:30'),
      note: word,
    },
    { requiredKeys: ['part', 'reads', 'shown', 'seen', 'point'] },
  )
  fc.assert(
    fc.property(fc.array(reading, { minLength: 1, maxLength: 5 }), (readings) => {
      const back = readReadings(readingsCsv(readings as Reading[]))
      const bare = (rs: readonly Reading[]) => rs.map(({ seen: _, ...r }) => r)
      expect(back.ok && bare(back.readings)).toEqual(bare(readings as Reading[]))
    }),
  )
})

test('a reading taken before the first point of a run reads back, as one of the first', () => {
  const [leakage] = good('part,reads,shown,range\nA,iceo,7.3 div,1 mA')
  const back = readReadings(readingsCsv([{ ...leakage!, point: 0 }]))
  expect(back.ok && back.readings.map((r) => r.point)).toEqual([1])
})

test('what was typed is kept where it can stand alone', () => {
  expect(readingsCsv(good('part,reads,shown,range\nA,iceo,7.3 div,1 mA\nA,hfe,118,'))).toBe(
    'part,type,reads,shown,range,scale,point,supply,ambient,at,note\nA,,I_CEO,7.3 div,1 mA,,1,,,,\nA,,h_FE,118,,,1,,,,\n',
  )
})

test('nothing anyone may write throws', () => {
  const piece = fc.constantFrom(
    'part,reads,shown,range\n',
    'A',
    ',',
    ';',
    '\n',
    '"',
    ...readingKinds,
    '7.3 div',
    '1e999',
    'uA',
    '-',
    ' ',
    '{',
    '}',
    '"format"',
    ':',
    'format: germane/readings/1\n',
    'readings:\n  - ',
    '[',
    ']',
  )
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
      const read = readReadings(pieces.join(''), { tester })
      expect(read.ok || read.faults.every((f) => explain(f).length > 10)).toBe(true)
    }),
    { numRuns: 3000 },
  )
})

test('10,000 readings are read and checked quickly', () => {
  const rows = Array.from(
    { length: 10_000 },
    (_, i) => `P${i},AX1,I_CEO,${(i % 490) / 10} div,1 mA,,1,4.5 V,21,2024-05-12 14:30,`,
  )
  const text = `part,type,reads,shown,range,scale,point,supply,ambient,at,note\n${rows.join('\n')}`
  const start = process.cpuUsage()
  expect(good(text)).toHaveLength(10_000)
  const { user, system } = process.cpuUsage(start)
  // The mark is 300 ms on an idle machine; the bound leaves room for a busy one.
  expect((user + system) / 1000).toBeLessThan(1500)
})
