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
