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
    [['compare', 'pairs.csv', '--max', '1 uA', '--min', '1 uA'], /--max and --min were both given/],
    [['compare', 'pairs.csv', '--max', '5 V'], /--max: "5 V" is a voltage, not a current/],
    [['compare', 'pairs.csv', '--ratio', '--within', '2'], /Write it in percent/],
  ])('%j is refused with a sentence', async (args, say) => {
    expect(refusal(await g.run(['tester', ...args]))).toMatch(say)
  })
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
    expect(refusal(await g.run(['tester', 'gauge', 'less.csv']))).toMatch(/"CX-4" was read 1 times by Ben/)
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
