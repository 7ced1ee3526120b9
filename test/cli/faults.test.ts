import { mkdirSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { testerExample } from '#core/tester'
import { fileOf, meter, ownType, readingsOf } from './bench.ref.ts'
import { germane, type Refused, refusal, refuses } from './germane.ts'

const g = germane()

const good = fileOf(readingsOf('A1', '40 uA', '10 mA', '100 uA'))
const judge = (file: string, ...more: readonly string[]) => ['judge', file, '--tester', 'meter.yaml', ...more]

beforeAll(() => {
  g.write('meter.yaml', meter)
  g.write('good.csv', good)
  mkdirSync(g.path('folder'))
})

const refusals = (jobs: readonly Refused[]) => refuses(g, jobs)

describe('files that cannot be used', () => {
  test('missing, a folder, empty, standard input twice', () =>
    refusals([
      [judge('nothere.csv'), /^nothere\.csv: is not there\. Check the name, or give - to read standard input\.$/m],
      [judge('folder'), /^folder: is a folder, not a file\./],
      [judge('-'), /^standard input: the text is empty\./],
      [['judge', 'good.csv', '--tester', 'folder'], /^folder: is a folder, not a file\./],
      [['judge', 'good.csv', '--tester', 'nothere.yaml'], /^nothere\.yaml: is not there\./],
      [['judge', '-', '--tester', '-'], /^Standard input was named twice with -\./, meter],
      [['tester', 'check', 'nothere.yaml'], /^nothere\.yaml: is not there\./],
      [['type', 'check', 'folder'], /^folder: is a folder/],
      [['book', 'import', 'nothere.json', 'new.germane'], /^nothere\.json: is not there\./],
    ]))

  test('a file that was taken for something else', () =>
    refusals([
      [
        ['judge', '--working', 'good.csv', '--tester', 'meter.yaml'],
        /^"good\.csv" was taken for the part .* --working\.$/m,
      ],
      [
        ['fit', 'diode', '-', '--card', '-'],
        /^"-" is no file to write to, since standard output carries the result\./,
        curveExampleCsv.diode,
      ],
    ]))

  test('the example comes as a table or as JSON, and both are read', async () => {
    g.write('example.yaml', testerExample)
    for (const more of [[], ['--json']]) {
      const example = await g.run(['judge', '--example', ...more])
      const said = await g.run(['judge', '-', '--tester', 'example.yaml'], { input: example.out })
      expect(said.out).toContain('2N1305')
    }
  })

  test('bytes that are no text', () =>
    refusals([
      [
        judge('-'),
        /line 3:4: the text has letters that are not UTF-8\. Save it again/,
        Buffer.from(`${fileOf()}A1,short,clear,,,,\nA1,\xff\xfe,12`, 'latin1'),
      ],
      [judge('-'), /^standard input: the text is not plain text\./, good.replace('40 uA', '4\0 uA')],
      [
        ['tester', 'check', '-'],
        /^standard input: the text is not plain text\./,
        Buffer.from([0x50, 0x4b, 3, 4, 0, 0]),
      ],
      [['type', 'check', '-'], /not plain text|not UTF-8/, Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0x1a])],
      [['book', 'import', '-', 'new.germane'], /is not JSON/, Buffer.from([0x50, 0x4b, 3, 4, 0x1b])],
    ]))

  test('what is printed about them holds no signs that move a terminal', async () => {
    const said = await g.run(judge('-'), { input: good.replace('I_CEO', '\u001b[2JI_CEO') })
    expect(refusal(said)).not.toContain('\u001b')
  })
})

describe('all faults of a file come at once', () => {
  const bad = `part,reads,shown,range,point,supply,ambient
A1,I_CEOO,40 uA,200 uA,1,5 V,25 degC
,I_CEO,40 uA,200 uA,1,5 V,25 degC
A1,I_CEO,400 uA,200 uA,1,5 V,25 degC
A1,I_CEO,0.4 V,200 uA,0,5 V,25 degC
A1,I_CEO,1e999 uA,3 kA,1,9000 V,900 degC
A1,I_B,fine,200 uA,2,5 V,hot
`
  const places = [
    [2, 'reads', 'I_CEOO'],
    [3, 'part', ''],
    [4, 'shown', '400 uA'],
    [5, 'shown', '0.4 V'],
    [5, 'point', '0'],
    [6, 'shown', '1e999 uA'],
    [6, 'ambient', '900 degC'],
    [6, 'range', '3 kA'],
    [6, 'supply', '9000 V'],
    [7, 'shown', 'fine'],
    [7, 'ambient', 'hot'],
  ] as const

  test('a table: row, column, value and mend of each', async () => {
    const said = refusal(await g.run(judge('-', '--json'), { input: bad }))
    const { faults } = JSON.parse(said)
    expect(
      faults.map((f: { place: { row: number; field: string }; value: string }) => [
        f.place.row,
        f.place.field,
        f.value,
      ]),
    ).toEqual(places)
    for (const f of faults)
      expect(f.sentence).toBe(
        `standard input, row ${f.place.row}, column "${f.place.field}": "${f.value}" ${f.problem}. ${f.mend}`,
      )
  })

  test('the same for people: one line a fault', async () => {
    const lines = refusal(await g.run(judge('-'), { input: bad }))
      .trimEnd()
      .split('\n')
    expect(lines).toHaveLength(places.length)
    expect(lines[0]).toMatch(/^standard input, row 2, column "reads": "I_CEOO" .* Did you mean I_CEO\?/)
  })

  test('a JSON file and a description: line, path, value and mend', () =>
    refusals([
      [
        judge('-'),
        /line 2:\d+, readings\[1\]\.shown: "400 uA" is beyond the range 200 uA[^\n]*\n.*line 3:\d+, readings\[2\]\.reads: "I_QQ"/,
        '{ "format": "germane/readings/1", "readings": [\n{"part":"A1","reads":"I_CEO","shown":"400 uA","range":"200 uA"},\n{"part":"A1","reads":"I_QQ","shown":"4 uA"}]}',
      ],
      [
        judge('-'),
        /readings\[1\]\.rnge: "rnge" is not a key that is known here\. Did you mean range\?/,
        '{"format":"germane/readings/1","readings":[{"part":"A1","reads":"I_CEO","shown":"4 uA","rnge":"200 uA"}]}',
      ],
      [
        judge('-'),
        /__proto__/,
        '{"format":"germane/readings/1","readings":[{"__proto__":{"part":"A1"},"part":"A1","reads":"I_CEO","shown":"4 uA"}]}',
      ],
      [
        ['tester', 'check', '-'],
        /line 4:7, kind: "needel"[^\n]*needle[^\n]*\n.*fullScale: "200" /,
        meter.replace('kind: digital', 'kind: needel').replace('fullScale: 200 uA', 'fullScale: 200'),
      ],
      [
        ['type', 'check', '-'],
        /limits\[1\]\.min: "many"[^\n]*\n.*limits\[2\]\.max: "50 V"/,
        ownType.replace('min: 80', 'min: many').replace('max: 50 uA', 'max: 50 V'),
      ],
    ]))
})

describe('a file that is refused changes nothing', () => {
  test('the book is the same to the last byte', async () => {
    expect((await g.run(['book', 'create', 'kept.germane'])).code).toBe(0)
    expect((await g.run(judge('good.csv', '--keep', '--book', 'kept.germane'))).code).toBe(0)
    const before = g.bytes('kept.germane')
    g.write('bad.csv', good.replace('10 mA', '10 V'))
    g.write('bad.yaml', 'types:\n  - type: X\n')
    g.write('curve.csv', curveExampleCsv.diode)
    await refusals([
      [judge('bad.csv', '--keep', '--book', 'kept.germane'), /"10 V" is not in amperes/],
      [judge('good.csv', '--keep', '--book', 'kept.germane'), /good\.csv/],
      [['tester', 'add', 'bad.yaml', '--book', 'kept.germane'], /bad\.yaml/],
      [['type', 'add', 'bad.yaml', '--book', 'kept.germane'], /bad\.yaml/],
      [
        ['part', 'edit', 'A1', '--status', 'lost', '--book', 'kept.germane'],
        /is no status of a part\. Write one of: kept,/,
      ],
      [
        ['part', 'edit', 'A11', '--place', 'bag', '--book', 'kept.germane'],
        /no part in the book called "A11"\. Near it: A1\./,
      ],
      [['part', 'correct', '1', 'shrt', '--book', 'kept.germane'], /Did you mean short\?/],
      [['part', 'correct', '77', 'short', '--book', 'kept.germane'], /no reading in the book called "77"/],
      [['book', 'create', 'kept.germane'], /there is already a file of this name/],
      [['book', 'import', 'bad.yaml', 'kept.germane'], /bad\.yaml/],
      [['report', 'good.csv', '--tester', 'meter.yaml', '--out', 'kept.germane'], /is a book and is left as it is/],
      [['fit', 'diode', 'curve.csv', '--card', 'kept.germane'], /is a book and is left as it is/],
      [['book', 'export', '--book', 'kept.germane', '--out', 'kept.germane'], /is a book and is left as it is/],
      [['demo', '--book', 'kept.germane'], /is a book of your own, not a demo/],
    ])
    expect(g.bytes('kept.germane').equals(before)).toBe(true)
  })

  test('a book that cannot be made is not there', async () => {
    await refusals([
      [['book', 'import', '-', 'never.germane'], /format: "nothing" is not "germane\/book\/1"/, '{}'],
      [['book', 'create', 'nowhere/never.germane'], /nowhere\/never\.germane/],
      [['book', 'info', '--book', 'never.germane'], /there is no book of this name/],
      [['book', 'info', '--book', 'good.csv'], /is not a Germane book/],
      [['book', 'info', '--book', 'folder'], /is a folder/],
      [judge('good.csv', '--keep', '--book', 'never.germane'), /there is no book of this name/],
    ])
    expect(() => g.bytes('never.germane')).toThrow()
  })
})

describe('options that make no sense', () => {
  test('name the option, the value and the mend', () =>
    refusals([
      [['judge', 'good.csv'], /^No tester was named\. Add --tester/],
      [['judge', 'good.csv', '--tester', 'twinmeter'], /no tester called "twinmeter"\./],
      [['judge', 'good.csv', '--tester', 'lrkfield'], /Near it: larkfield\./],
      [['judge', '--tester', 'larkfield'], /^No file of readings was named\./],
      [['reduce'], /^No file of readings was named\./],
      [judge('good.csv', '--rule', 'harsh'), /--rule: "harsh" is no rule\. Write guarded or simple\./],
      [judge('good.csv', '--sure', '20 %'), /--sure: "20 %" is not between 50 % and 100 %\./],
      [judge('good.csv', '--sure', 'very'), /--sure: "very" does not begin with a number\./],
      [judge('good.csv', '--ambient', 'warm'), /--ambient: "warm" .* such as 25 degC\./],
      [judge('good.csv', '--working', 'Z9'), /no part in these readings called "Z9"/],
      [['plan'], /^No part type was named\. Name one, such as 2N1305/],
      [['plan', '2N13055', '--tester', 'larkfield'], /no part type called "2N13055"\. Near it: 2N1305/],
      [
        ['plan', 'unknown', '--tester', 'larkfield', '--ic', 'some', '--supply', 'much', '--ambient', 'hot'],
        /--ambient: "hot"[^\n]*\n--ic: "some"[^\n]*\n--supply: "much"/,
      ],
      [
        ['plan', 'unknown', '--tester', 'larkfield', '--ic', '1e9 A', '--polarity', 'XNPN'],
        /--ic: "1e9 A" is not between[^\n]*\n--polarity: "XNPN" is not known here\. Write NPN or PNP\./,
      ],
      [['plan', 'unknown', '--tester', 'larkfield', '--if', '5 V'], /--if: "5 V" is a voltage, not a current\./],
      [
        ['type', 'find', '--polarity', 'PPN'],
        /--polarity: "PPN" is not known here\. Did you mean NPN\? Write one of: NPN, PNP/,
      ],
      [['type', 'find', '--material', 'Pb'], /--material: "Pb" is not known here\./],
      [['type', 'explain', ''], /number: "" is empty\./],
      [['tester', 'read', 'larkfield', 'I_CO', '1 uA'], /what: "I_CO" .*Did you mean I_C/],
      [['tester', 'read', 'larkfield', 'I_C', '1e999 A'], /shown: "1e999 A" is too large for a number\./],
      [['tester', 'read', 'larkfield', 'I_C', 'NaN'], /shown: "NaN" does not begin with a number\./],
      [['part', 'correct', 'one', '3 div'], /reading: "one" is no number of a reading\./],
      [['report'], /^Nothing was named to report on\./],
      [['book', 'export', '--csv', '--json'], /--csv and --json both say what to print\./],
      [['run', '--book', 'r.germane'], /^No part type was named\./],
      [['run', '2N1305', '--tester', 'larkfield', '--part', ' ', '--book', 'r.germane'], /--part: " " is no tag\./],
    ]))

  test('GERMANE_BOOK names the book where --book does not', async () => {
    const said = await g.run(['book', 'info'], { env: { GERMANE_BOOK: 'from-surroundings.germane' } })
    expect(refusal(said)).toMatch(/^from-surroundings\.germane: there is no book of this name\./)
    expect(refusal(await g.run(['book', 'info']))).toMatch(/^bench\.germane: there is no book of this name\./)
  })
})
