import { beforeAll, describe, expect, test } from 'vitest'
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

describe('tester compare', () => {
  beforeAll(async () => {
    g.write('pairs.csv', (await g.run(['tester', 'compare', '--example'])).out)
  })

  test('says bias, limits and the answer, and reads standard input', async () => {
    const said = await g.run(['tester', 'compare', 'pairs.csv', '--max', '200 uA'])
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(said.out).toContain('lower limit of agreement')
    expect(said.out).toMatch(/they\s+are interchangeable for these parts/)
    const typed = await g.run(['tester', 'compare', '-', '--max', '200 uA'], { input: g.read('pairs.csv') })
    expect(typed.out).toBe(said.out)
  })

  test('ends with 1 where they are not interchangeable', async () => {
    const said = await g.run(['tester', 'compare', 'pairs.csv', '--within', '0.1 uA', '--json'])
    expect(oneDocument(said, [1])).toMatchObject({ format: 'germane/agreement/1', answer: { word: 'no' } })
  })

  test('writes a page, or the plot alone', async () => {
    await g.run(['tester', 'compare', 'pairs.csv', '--out', 'page.html'])
    expect(g.read('page.html')).toMatch(/^<!DOCTYPE html>/)
    await g.run(['tester', 'compare', 'pairs.csv', '--out', 'plot.svg'])
    expect(g.read('plot.svg')).toMatch(/^<svg xmlns=/)
  })

  test.each([
    [['compare'], /No table was named/],
    [['compare', '--testers', 'larkfield', '--book', 'none.germane'], /are not two testers/],
    [['compare', 'pairs.csv', '--max', '1 uA', '--min', '1 uA'], /--max and --min were both given/],
    [['compare', 'pairs.csv', '--max', '5 V'], /--max: "5 V" is a voltage, not a current/],
    [['compare', 'pairs.csv', '--ratio', '--within', '2'], /Write it in percent/],
  ])('%j is refused with a sentence', async (args, say) => {
    expect(refusal(await g.run(['tester', ...args]))).toMatch(say)
  })
})

test('tester compare takes parts of the book that were run on both', async () => {
  const book = ['--book', 'both.germane']
  await g.run(['book', 'create', 'both.germane'])
  g.write('one.yaml', (await g.run(['tester', '--example'])).out)
  g.write('two.yaml', g.read('one.yaml').replace('id: bench-tester', 'id: other-tester'))
  const rows = (factor: number): string =>
    [10, 16, 22, 30, 38].map((d, i) => `P${i},unknown,I_CEO,${d * factor} div,1 mA`).join('\n')
  for (const [name, factor] of [
    ['one', 1],
    ['two', 1.1],
  ] as const) {
    g.write(`${name}.csv`, `part,type,reads,shown,range\n${rows(factor)}\n`)
    await g.run(['judge', `${name}.csv`, '--tester', `${name}.yaml`, '--keep', ...book])
  }
  const args = ['tester', 'compare', '--testers', 'other-tester,bench-tester', '--symbol', 'I_CEO', '--ratio']
  const said = oneDocument(await g.run([...args, '--json', ...book]))
  expect(said).toMatchObject({ names: ['other-tester', 'bench-tester'], unit: 'A', count: 5 })
  expect((said.bias as { value: number }).value).toBeCloseTo(1.1, 6)
  const none = await g.run(['tester', 'compare', '--testers', 'other-tester,bench-tester', ...book])
  expect(refusal(none)).toMatch(/count of parts read on both testers is 0/)
})

describe('tester gauge', () => {
  beforeAll(async () => {
    g.write('hands.csv', (await g.run(['tester', 'gauge', '--example'])).out)
  })

  test('says what the spread is made of, by both methods', async () => {
    const said = await g.run(['tester', 'gauge', 'hands.csv'])
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(said.out).toMatch(/The measurement is good/)
    expect(said.out).toContain('Analysis of variance')
    const ranges = await g.run(['tester', 'gauge', '-', '--method', 'ranges'], { input: g.read('hands.csv') })
    expect(ranges.out).not.toContain('Analysis of variance')
  })

  test('ends with 1 where the measurement is too poor for the tolerance', async () => {
    const said = await g.run(['tester', 'gauge', 'hands.csv', '--tolerance', '2 uA', '--json'])
    expect(oneDocument(said, [1])).toMatchObject({ format: 'germane/gauge/1', word: 'poor' })
  })

  test('refuses a hand that read less than the others', async () => {
    g.write('less.csv', g.read('hands.csv').replace(/CX-4,Ben,.*\n/, ''))
    expect(refusal(await g.run(['tester', 'gauge', 'less.csv']))).toMatch(/"CX-4" was read once by Ben/)
  })
})

describe('tester drift', () => {
  beforeAll(async () => {
    g.write('standard.csv', (await g.run(['tester', 'drift', '--example'])).out)
  })

  test('ends with 1 where the tester is out of control, and says since when', async () => {
    const said = await g.run(['tester', 'drift', 'standard.csv', '--baseline', '12', '--high', '124'])
    expect(said).toMatchObject({ code: 1, err: '' })
    expect(said.out).toMatch(/^Check standards\nx CS-1: the tester is out of control/)
    expect(said.out).toMatch(/2024-11-15\s+a point lies beyond three standard deviations/)
  })

  test('a year in which it was steady', async () => {
    const year = g.read('standard.csv').split('\n').slice(0, 13).join('\n')
    const said = await g.run(['tester', 'drift', '-', '--json'], { input: `${year}\n` })
    expect(oneDocument(said)).toMatchObject({ standards: [{ part: 'CS-1', word: 'steady' }] })
  })

  test('a part of the book, over its runs', async () => {
    await g.run(['book', 'create', 'cs.germane'])
    const types = 'part,type,reads,shown,range,at\n'
    for (const [i, shown] of ['12 div', '12.2 div', '11.9 div'].entries()) {
      const at = `2024-0${i + 1}-01T10:00:00Z`
      g.write(`cs${i}.csv`, `${types}CS-9,unknown,I_CEO,${shown},100 uA,${at}\n`)
      await g.run(['judge', `cs${i}.csv`, '--tester', 'larkfield', '--keep', '--book', 'cs.germane'])
    }
    const of = ['tester', 'drift', '--tester', 'larkfield', '--part', 'CS-9', '--book', 'cs.germane']
    const said = await g.run([...of, '--symbol', 'I_CEO', '--json'])
    expect(oneDocument(said)).toMatchObject({
      standards: [{ part: 'CS-9', unit: 'A', drift: { first: '2024-01-01', last: '2024-03-01' } }],
    })
    expect(refusal(await g.run([...of, '--symbol', 'h_FE']))).toMatch(
      /no h_FE of CS-9 on the tester called "larkfield"/,
    )
  })

  test.each([
    [['drift'], /No table was named/],
    [['drift', 'standard.csv', '--baseline', '2'], /whole number, 3 or more/],
    [['drift', 'standard.csv', '--ewma', '2'], /is no weight/],
    [['drift', 'standard.csv', '--low', '5', '--high', '4'], /is not below --high/],
    [['drift', '--part', 'X'], /No tester was named/],
  ])('%j is refused with a sentence', async (args, say) => {
    expect(refusal(await g.run(['tester', ...args]))).toMatch(say)
  })
})

describe('tester calibrate', () => {
  const book = ['--book', 'calibrated.germane']
  const kept = [
    'tester',
    'calibrate',
    'tester.yaml',
    'calibration.csv',
    '--date',
    '2024-05-12',
    '--ambient',
    '21 C',
    '--keep',
  ]

  beforeAll(async () => {
    g.write('tester.yaml', (await g.run(['tester', '--example'])).out)
    g.write('calibration.csv', (await g.run(['tester', 'calibrate', '--example'])).out)
    g.write('readings.csv', (await g.run(['judge', '--example'])).out)
    await g.run(['book', 'create', 'calibrated.germane'])
    await g.run(['judge', 'readings.csv', '--tester', 'tester.yaml', '--keep', ...book])
  })

  test('says corrections and what to trim, and writes the certificate', async () => {
    const args = ['tester', 'calibrate', 'tester.yaml', 'calibration.csv', '--date', '2024-05-12', '--ambient', '21 C']
    const said = await g.run([...args, '--by', 'E. Marsh', '--out', 'certificate.html'])
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(said.out).toMatch(/shunt of 10 mA acts as/)
    expect(said.out).toContain('due again: 2025-05-12')
    expect(g.read('certificate.html')).toContain('Calibration certificate')
    expect(g.read('certificate.html')).toContain('E. Marsh')
  })

  test('kept, it corrects new readings, and old runs only when they are computed anew', async () => {
    const results = async () =>
      JSON.stringify(oneDocument(await g.run(['part', 'show', 'A1', '--json', ...book])).results)
    const before = await results()
    expect(oneDocument(await g.run([...kept, '--from', '2024-05-01', '--json', ...book]))).toMatchObject({ version: 2 })
    expect(await results()).toBe(before)
    const read = await g.run(['tester', 'read', 'bench-tester', 'I_C', '25 div', '--range', '10 mA', ...book])
    expect(read.out).toContain('calibration of 10 mA, 2024-05-12')

    const dry = await g.run(['book', 'recompute', '--tester', 'bench-tester', ...book])
    expect(dry.out).toContain('Nothing was changed')
    expect(dry.out).toMatch(/1\s+.*1 to 2/)
    expect(await results()).toBe(before)

    const done = await g.run(['book', 'recompute', '--tester', 'bench-tester', '--apply', '--json', ...book])
    expect(oneDocument(done)).toMatchObject({ isApplied: true, runs: [{ run: 1, from: 1, to: 2 }] })
    expect(await results()).not.toBe(before)
    expect((await g.run(['book', 'check', ...book])).code).toBe(0)

    await g.run(['book', 'recompute', '--tester', 'bench-tester', '--to-version', '1', '--apply', ...book])
    const again = await g.run(['book', 'recompute', '--tester', 'bench-tester', '--to-version', '1', ...book])
    expect(again.out).toContain('stands on version 1 already')
    expect((await g.run(['book', 'check', ...book])).code).toBe(0)
  })

  test('the health of the tester says what is due', async () => {
    const said = await g.run(['tester', 'check', 'bench-tester', ...book])
    // the calibration of 2024 was due again a year later
    expect(said).toMatchObject({ code: 1, err: '' })
    expect(said.out).toMatch(/not for 10 mA, 1 V\. Overdue\s+since 2025-05-12/)
    expect((await g.run(['tester', 'check', 'larkfield'])).out).toContain('never calibrated on all its ranges')
  })

  test('a span of the gain dial corrects the gains that are read on it', async () => {
    const rows = [20, 40, 60, 80].flatMap((h) => [`low,${h} +- 0.2,${h * 0.92},up`, `low,${h} +- 0.2,${h * 0.92},down`])
    g.write('dial.csv', `range,reference,shown,way\n${rows.join('\n')}\n`)
    const dialled = ['--book', 'dial.germane']
    const args = ['tester', 'calibrate', 'tester.yaml', 'dial.csv', '--date', '2024-05-12', '--keep', ...dialled]
    const said = await g.run(args)
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(said.out).toContain('h_FE span low: with corrections.')
    const read = await g.run(['tester', 'read', 'bench-tester', 'h_FE', '46', '--range', 'low', ...dialled])
    // 46 / 0.92
    expect(read.out).toMatch(/h_FE = 50\.0/)
    expect(read.out).toContain('calibration of h_FE span low, 2024-05-12')
    g.write('gain.csv', 'part,type,reads,shown,range,at\nP1,unknown,h_FE,46,low,2024-06-01T10:00:00Z\n')
    const kept = await g.run(['judge', 'gain.csv', '--tester', 'bench-tester', '--json', ...dialled])
    expect(oneDocument(kept)).toMatchObject({
      parameters: [{ symbol: 'h_FE', formula: { id: 'tester/corrected-gain' } }],
    })
  })

  test('the certificate of what was kept is the one that was printed', async () => {
    const printed = oneDocument(await g.run([...kept, '--json', '--book', 'certified.germane']))
    const again = await g.run(['tester', 'certificate', 'bench-tester', '--book', 'certified.germane', '--json'])
    const { ranges } = oneDocument(again) as { ranges: { expanded: number; advice: { say: string } }[] }
    for (const [i, r] of (printed.ranges as typeof ranges).entries()) {
      expect(ranges[i]!.advice.say).toBe(r.advice.say)
      expect(ranges[i]!.expanded / r.expanded).toBeCloseTo(1, 6)
    }
    const none = await g.run(['tester', 'certificate', 'larkfield'])
    expect(refusal(none)).toMatch(/no calibration of Larkfield bench tester with its readings called "the newest"/)
  })

  test('a comment in the description outlives the calibration', async () => {
    await g.run([...kept, '--book', 'comments.germane'])
    const out = oneDocument(await g.run(['book', 'export', '--book', 'comments.germane']))
    const { tables } = out as { tables: { tester_version: { description: string }[] } }
    const text = tables.tester_version.at(-1)!.description
    expect(text).toContain('# What your tester is.')
    expect(text).toContain('trust: ')
  })

  test.each([
    [['tester', 'calibrate', 'tester.yaml'], /No file of readings was named/],
    [['tester', 'calibrate', 'tester.yaml', 'calibration.csv', '--date', '12.5.24'], /is not a date/],
    [['tester', 'calibrate', 'larkfeld', 'calibration.csv'], /Near it: larkfield/],
    [['tester', 'calibrate', 'tester.yaml', 'readings.csv'], /is not a column that is known here/],
    [['tester', 'check', 'larkfield', '--standard', 'a:b:c'], /is not a tag and a symbol/],
    [['book', 'recompute', '--book', 'calibrated.germane'], /No tester was named/],
    [
      ['book', 'recompute', '--tester', 'bench-tester', '--to-version', '9', '--book', 'calibrated.germane'],
      /version 9/,
    ],
  ])('%j is refused with a sentence', async (args, say) => {
    expect(refusal(await g.run(args))).toMatch(say)
  })
})
