import { beforeAll, describe, expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { gaugeExampleCsv as gauge } from '#core/upkeep'
import { germane, type Refused, refusal, refuses } from './germane.ts'

const g = germane()

const refusals = (jobs: readonly Refused[]) => refuses(g, jobs)

beforeAll(async () => {
  g.write('parts.csv', (await g.run(['match', '--example'])).out)
  g.write('position.yaml', (await g.run(['stage', '--example'])).out)
  g.write('curve.csv', curveExampleCsv.diode)
  expect((await g.run(['book', 'create', 'empty.germane'])).code).toBe(0)
})

const match = (...more: readonly string[]) => ['match', 'parts.csv', ...more]
const plan = (...more: readonly string[]) => ['plan', '--tester', 'larkfield', ...more]
const stage = (...more: readonly string[]) => ['stage', 'position.yaml', ...more]

describe('slips of the hand are answered with the option, the value and the mend', () => {
  test('a word that is none of those an option takes', () =>
    refusals([
      [
        ['curve', 'curve.csv', '--plot', 'lni'],
        /^--plot: "lni" is not known here\. Did you mean lin\? Write one of: lin, log, gummel, gain, output\.$/m,
      ],
      [['tester', 'gauge', '-', '--method', 'annova'], /^--method: "annova" is not known here\. Did you mean anova\?/],
      [
        ['tester', 'dial', '-', '--fixed', '1k', '--dial', 'emitter'],
        /^--dial: "emitter" is not known here\. Write one/,
      ],
      [['type', 'find', '--material', 'lead'], /^--material: "lead" is not known here\. Write one of: Ge, Si, GaAs\./],
    ]))

  test('an option that a command cannot do without', () =>
    refusals([
      [['tester', 'dial', '-'], /^germane tester dial lacks --fixed <ohm>\. Add it: the resistor that is not the dial/],
      [['tester', 'cells', '1 A'], /^germane tester cells lacks --count <number>\. Add it: cells in series\./],
    ]))

  test('what parts are matched by', () =>
    refusals([
      [['match'], /^No parts were named\. Name a file,/],
      [match(), /^Nothing was named to match by\./],
      [match('--by', 'vbe_mV:5', '--size', '1'), /^--size: "1" is too small: it must be at least 2\./],
      [
        match('--by', 'vbe_mV:5', '--size', 'two'),
        /^--size: "two" is not a whole number\. Write for example --size 2\./,
      ],
      [match('--by', 'vbe_mV:5', '--objective', 'best'), /^--objective: "best" is not a word allowed here\./],
      [match('--by', 'vbe_mV:5', '--within', 'hfe:10%'), /^--within: "hfe" is not named in --by\. Add it there, or/],
      [
        match('--by', 'vbe_mV:5', '--between', 'vbe_mV:160..150'),
        /^--between: "vbe_mV:160\.\.150" begins above its end\. .* vbe_mV:150\.\.160\.$/m,
      ],
      [match('--by', 'vbemV:5'), /"vbemV" is not a column of the table\. Did you mean vbe_mV\?/],
    ]))

  test('a book in which nothing is there to choose from', () =>
    refusals([
      [['match', '--book', 'empty.germane', '--by', 'h_FE:1'], /^The book holds no part that was read yet\./],
      [
        ['match', '--book', 'empty.germane', '--lot', 'x', '--by', 'h_FE:1'],
        /no lot with parts in the book called "x"/,
      ],
      [stage('--rank', '--book', 'empty.germane'), /^The book holds no part that was read yet\. Keep the readings/],
      [stage('--rank', '--type', 'OC71', '--book', 'empty.germane'), /no part in the book of a type called "OC71"/],
    ]))

  test('an option that says something only of another', () =>
    refusals([
      [stage('--lot', 'x'), /^--lot goes with --rank\. Add --rank, or leave --lot out\.$/m],
      [stage('--series', 'E12'), /^--series goes with --re-bias\./],
      [['curve', 'curve.csv', '--from', '0.4'], /^--from goes with --points\./],
      [['curve', 'curve.csv', '--to', '0.4'], /^--to goes with --points\./],
    ]))

  test('what is wished of a plan', () =>
    refusals([
      [
        plan('2N1305', '--type', '2N404'),
        /^The part type 2N1305 and --type were both given\. Leave one of them out\.$/m,
      ],
      [plan('2N1305', '--polarity', 'NPN'), /^--polarity: "NPN" is for an unknown part, and 2N1305 has its record\./],
      [
        plan('2N1305', '--ambient', '70 F'),
        /^--ambient: "70 F" is in degrees Fahrenheit\. Write it in degrees Celsius,/,
      ],
    ]))

  test('what is asked of a circuit', async () => {
    g.write('circuit.json', (await g.run(['circuit', '--example'])).out)
    const circuit = (...more: readonly string[]) => ['circuit', 'circuit.json', ...more]
    await refusals([
      [
        circuit('--sensitivity', 'node:c', '--sweep-temperature', '0:50:25'),
        /^--sensitivity and --sweep-temperature were/,
      ],
      [circuit('--sweep-temperature', '0:50'), /"0:50" is not from:to:step\. Write for example 0:50:10\./],
      [circuit('--sweep-temperature', '50:0:10'), /"50:0:10" gives no temperature, .* Write the lower end first/],
    ])
  })

  test('the range of a reading, a time, and a book that is not there', () =>
    refusals([
      [
        ['tester', 'read', 'larkfield', 'I_CEO', '12 div'],
        /^--range: "" is not given, and Larkfield bench tester reads I_CEO on several\. Write one of: 100 uA,/,
      ],
      [
        ['part', 'curve', 'D1', 'curve.csv', '--taken', 'May', '--book', 'empty.germane'],
        /^--taken: "May" is not a date or a time\. Write it as 2024-05-12 or/,
      ],
      [
        ['part', 'list', '--book', 'never.germane'],
        /^never\.germane: there is no book of this name\. Check the name, or make it with "germane book create never\.germane"\.$/m,
      ],
    ]))

  test('a file where a type was wanted, and a movement that is half described', () =>
    refusals([
      [['standin', 'position.yaml'], /^position\.yaml is a file, and a type number was wanted\. Write --position pos/],
      [['tester', 'shunt', '10 mA', '--movement', '100 uA'], /^The movement lacks its coil\. Name a tester with/],
      [['tester', 'shunt', '10 mA', '--coil', '1 kohm'], /^The movement lacks its full scale\./],
    ]))

  test('a colour that is none, and a calibration that is due before it was made', () =>
    refusals([
      [['tester', 'code', 'yelow violet red'], /^band 1: "yelow" is no colour of a band\. Write one of: black, brown,/],
      [['tester', 'code', 'gold violet red'], /^band 1: "gold" cannot stand for a digit\. Check the colour, or read/],
      [
        ['tester', 'calibrate', 'larkfield', '-', '--date', '2026-05-01', '--due', '2020-01-01'],
        /^--due: "2020-01-01" is before the 2026-05-01 it was made\. Give a later day\./,
        'range,reference,shown\n',
      ],
    ]))

  test('a page that is to be written as something else', async () => {
    g.write('lot.csv', (await g.run(['reduce', '--example'])).out)
    await refusals([
      [
        ['report', 'lot.csv', '--tester', 'larkfield', '--out', 'lot.pdf'],
        /^lot\.pdf: a page is written as HTML, not as PDF\. .* print the page from a browser/,
      ],
      [['tester', 'gauge', '-', '--out', 'hands.csv'], /^hands\.csv: a page is written as HTML, not as CSV\./, gauge],
    ])
    expect(() => g.read('lot.pdf')).toThrow()
  })

  test('columns and kinds of a curve', () =>
    refusals([
      [
        ['curve', 'curve.csv', '--column', 'foo=V_F'],
        /no column in this file called "foo"\. Its columns are: V_F, I_F\./,
      ],
      [['fit', 'dioed', 'curve.csv'], /no kind of part to fit called "dioed"\. Near it: diode\. Kinds: diode,/],
      [['fit', 'nothere.csv'], /^nothere\.csv: is not there\./],
      [
        ['fit', '-'],
        /^No kind of part was named\. Write one of diode, bjt, jfet, mosfet/,
        'V_GS,V_DS,I_D\n-1,5,1e-3\n',
      ],
      [['curve', '-'], /are no columns of a curve\. .* map each column to its symbol, or say what/, 'a,b\n1,2\n'],
      [['fit', 'diode', 'curve.csv', '--hand'], /or give the relative uncertainty of all, such as 1 %\./],
    ]))

  test('a part that was found shorted is tried in no place', async () => {
    expect((await g.run(['demo', '--book', 'demo.germane'])).code).toBe(0)
    await refusals([
      [
        stage('--part', 'OP-5', '--book', 'demo.germane'),
        /^OP-5 was found shorted when it was read last, and works in/,
      ],
    ])
  })

  test('JSON where a table is wanted', () =>
    refusals(
      [
        ['match', '-', '--by', 'x:1'],
        ['curve', '-'],
        ['fit', 'diode', '-'],
        ['tester', 'compare', '-'],
      ].map(
        (args): Refused => [args, /^standard input: the text is JSON, not a table\. Give a CSV: a row/, '{ "a": 1 }'],
      ),
    ))
})

test('a column of faults is told by its first twenty, and whole with --json', async () => {
  const input = `V_F [V],I_F [V]\n${Array.from({ length: 30 }, (_, i) => `0.${i + 10},1e-6\n`).join('')}`
  const lines = refusal(await g.run(['fit', 'diode', '-'], { input }))
    .trimEnd()
    .split('\n')
  expect([lines.length, lines.at(-1)]).toEqual([21, 'And 10 more; --json prints them all.'])
  const { faults } = JSON.parse(refusal(await g.run(['fit', 'diode', '-', '--json'], { input })))
  expect(faults).toHaveLength(30)
})

test('the kind of a curve is known by its columns, and a column by its header with the unit', async () => {
  const named = await g.run(['fit', 'diode', 'curve.csv', '--json'])
  expect(await g.run(['fit', 'curve.csv', '--json'])).toEqual(named)
  const input = curveExampleCsv.diode.replace('V_F [V],I_F [A]', 'Ch1 [V],Ch2 [A]')
  const mapped = ['--column', 'Ch1 [V]=V_F', '--column', 'Ch2=I_F']
  const said = await g.run(['fit', '-', ...mapped, '--json'], { input })
  expect(JSON.parse(said.out).parameters).toEqual(JSON.parse(named.out).parameters)
})

test('a drawing goes to --out, and to the name the option had before', async () => {
  for (const [verb, former] of [
    [['curve', 'curve.csv'], '--write'],
    [['fit', 'diode', 'curve.csv'], '--plot'],
    [['standin', '2N404'], '--plot'],
    [stage('--count', '0'), '--drawing'],
  ] as const) {
    expect(await g.run([...verb, '--out', 'one.svg'])).toMatchObject({ code: 0, err: '' })
    expect(await g.run([...verb, former, 'two.svg'])).toMatchObject({ code: 0, err: '' })
    expect(g.read('two.svg'), verb[0]).toBe(g.read('one.svg'))
    const help = (await g.run([verb[0]!, '--help'])).out
    expect(help).toContain('--out <file>')
    expect(help).not.toContain(`${former} <file>`)
  }
})

test('outlines and materials are understood as people write them', async () => {
  const found = async (...more: readonly string[]) => (await g.run(['type', 'find', ...more])).out
  expect(await found('--outline', 'to5')).toBe(await found('--outline', 'TO-5'))
  expect(await found('--material', 'Germanium')).toBe(await found('--material', 'Ge'))
  expect(await found('zzz')).toContain('None of ')
})

test('sets that cannot be made are said to be so', async () => {
  const said = await g.run(match('--by', 'vbe_mV:5', '--size', '9'))
  expect(said.out).toMatch(/^No set of 9 can be made of these 8 parts\.\n/)
  expect(said.out).not.toContain('no other choice of')
})

test('what is done says what may have been missed, and what comes next', async () => {
  const book = ['--book', 'notes.germane']
  expect((await g.run(['demo', ...book])).code).toBe(0)
  g.write('job.yaml', (await g.run(['job', '--example'])).out)
  expect((await g.run(['job', 'add', 'job.yaml', ...book])).code).toBe(0)
  const says = async (...args: readonly string[]) => (await g.run([...args, ...book])).out
  expect(await says('job', 'reserve', 'Hut intercom', 'OP-5', '--for', 'TR2')).toBe(
    'OP-5: reserved for Hut intercom, TR2.\nOP-5 is of type 2N1305; TR2 asks for OC71.\nOP-5 was found shorted when it was read last.\n',
  )
  expect(await says('job', 'fit', 'Hut intercom', 'TR3', 'OP-8')).toBe(
    'TR3: OP-8 fitted.\nOP-8 is of type BC107; TR3 asks for AC128.\n',
  )
  expect(await says('part', 'edit', 'OP-4', '--type', 'AC218')).toBe(
    'OP-4: changed.\nNo record of a part type called AC218: it is measured but not judged. Near it:\nAC128.\n',
  )
  expect(await says('part', 'curves', 'OP-1')).toBe(
    'No curve of OP-1 is kept. Keep one with: germane part curve OP-1 FILE\n',
  )
  g.write('mine.yaml', (await g.run(['tester', '--example'])).out)
  expect(await says('tester', 'add', 'mine.yaml')).toBe('Bench tester is in notes.germane as version 1.\n')
  expect((await g.run(['tester', 'add', 'mine.yaml', '--book', 'typo.germane'])).out).toBe(
    'Bench tester is in typo.germane (a new book) as version 1.\n',
  )
  expect(await says('plan', 'unknown', '--tester', 'larkfield', '--polarity', 'PNP', '--ambient', '21 C')).toMatch(
    /\nTo take the readings: germane run unknown --tester larkfield --ambient "21 C" --book notes\.germane --polarity PNP\n$/,
  )
})

test('the example of readings is one for the sample as well', async () => {
  const { out } = await g.run(['judge', '--example'])
  const said = await g.run(['judge', '-', '--tester', 'larkfield'], { input: out })
  expect(said).toMatchObject({ code: 1, err: '' })
  expect(said.out).toMatch(/A1 +2N1305 +\? undecided/)
})

test("columns that stand in each other's place are pointed at", async () => {
  const head = 'V_F [V],I_F [A]'
  const swapped = curveExampleCsv.diode
    .split('\n')
    .map((line) => (line === head || line.startsWith('#') ? line : line.split(',').reverse().join(',')))
    .join('\n')
  const diode = await g.run(['fit', 'diode', '-'], { input: swapped })
  expect(diode.out).toContain('They lie far off the law: see that the columns, their units and the kind of part')
  expect((await g.run(['fit', 'diode', 'curve.csv'])).out).not.toContain('far off')
  const bjt = curveExampleCsv.bjt.replace('I_B [A],I_C [A]', 'I_C [A],I_B [A]')
  const said = (await g.run(['curve', '-'], { input: bjt })).out.replaceAll(/\s+/g, ' ')
  expect(said).toContain('I_B is above I_C in most rows, so that there is no gain')
  expect((await g.run(['curve', '-'], { input: curveExampleCsv.bjt })).out).not.toContain('above I_C')
})
