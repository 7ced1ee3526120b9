import { describe, expect, test } from 'vitest'
import { allFormulas } from '#core/reduce'
import { formulaHtml, putInHtml } from './formula.ts'

const plain = (markup: string): string => markup.replace(/<[^>]*>/g, '')

describe('a formula', () => {
  test('one division on a side is stacked, its brackets gone', () =>
    expect(formulaHtml('(I_C - I_CEO) / I_B').markup).toBe(
      '<span class="formula"><span class="frac"><span><i>I</i><sub>C</sub> \u2212 <i>I</i><sub>CEO</sub></span><span class="stroke"> / </span><span><i>I</i><sub>B</sub></span></span></span>',
    ))

  test('a sum with a division in it stays on the line', () =>
    expect(formulaHtml('I_CEO / I_CBO - 1').markup).not.toContain('frac'))

  test('brackets that do not belong together stay', () =>
    expect(plain(formulaHtml('(a + b) c (d + e)').markup)).toBe('(a + b) c (d + e)'))

  test('powers are raised, brackets within them and all', () =>
    expect(formulaHtml('2^(r (T2 - T1)) x').markup).toContain(
      '<sup><i>r</i> (<i>T</i><sub>2</sub> \u2212 <i>T</i><sub>1</sub>)</sup>',
    ))

  test('a lone letter is a variable, a word is not', () =>
    expect(formulaHtml('k ln(T)').markup).toBe('<span class="formula"><i>k</i> ln(<i>T</i>)</span>'))

  test('what is in it is escaped', () => expect(formulaHtml('<b> / "x"').markup).not.toMatch(/<b>|"x"/))

  test.each([...allFormulas.values()].map((f) => [f.id, f.text] as const))('%s loses no letter', (_, text) => {
    const bare = (t: string): string => t.replace(/[\s_()^\u2212-]/g, '')
    expect(bare(plain(formulaHtml(text).markup))).toBe(bare(text))
  })
})

describe('numbers put in', () => {
  test.each([
    [
      '118 exp(0.005 1/K (25 \u00b0C - 24.5 \u00b0C))',
      '118 \u00d7 exp(0.005 1/K \u00d7 (25 \u00b0C \u2212 24.5 \u00b0C))',
    ],
    ['1.5 V - 10 mA 400 m\u03a9', '1.5 V \u2212 10 mA \u00d7 400 m\u03a9'],
    ['21 \u00b0C + 0.5 13.9 mW 500 K/W', '21 \u00b0C + 0.5 \u00d7 13.9 mW \u00d7 500 K/W'],
    ['118 (1 - 1.24 mA / 10 mA)', '118 \u00d7 (1 \u2212 1.24 mA / 10 mA)'],
  ])('%s gets its times signs', (text, wanted) => expect(plain(putInHtml(text).markup)).toBe(wanted))
})
