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
    expect(oneDocument(said, [1])).toMatchObject({ format: 'germane/comparison/1', answer: { word: 'no' } })
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
    [['compare', 'pairs.csv', '--max', '5 V'], /--max: "5 V" is .*\bV/],
    [['compare', 'pairs.csv', '--ratio', '--within', '2'], /Write it in percent/],
  ])('%j is refused with a sentence', async (args, say) => {
    expect(refusal(await g.run(['tester', ...args]))).toMatch(say)
  })
})
