import { describe, expect, test } from 'vitest'
import { proseHtml, proseSvg, symbolHtml, symbolSvg, symbolText } from './symbol.ts'

test.each([
  ['h_FE', '<i>h</i><sub>FE</sub>'],
  ['I_CEO', '<i>I</i><sub>CEO</sub>'],
  ['V_CE(sat)', '<i>V</i><sub>CE(sat)</sub>'],
  ['R_thJA', '<i>R</i><sub>thJA</sub>'],
  ['h_FE0(I_CBO)', '<i>h</i><sub>FE0(ICBO)</sub>'],
  ['P', '<i>P</i>'],
  ['I_', '<i>I_</i>'],
  ['<b>_x', '<i>&lt;b&gt;</i><sub>x</sub>'],
])('%s is set as a symbol', (symbol, set) => expect(symbolHtml(symbol).markup).toBe(set))

describe('in a sentence', () => {
  test('symbols are set, the rest stays', () =>
    expect(proseHtml('I_CEO is below I_C; V_CE(sat) was not read.').markup).toBe(
      '<i>I</i><sub>CEO</sub> is below <i>I</i><sub>C</sub>; <i>V</i><sub>CE(sat)</sub> was not read.',
    ))

  test('a factor in brackets after a symbol stays on the line', () =>
    expect(proseHtml('I_C(1 + x)').markup).toBe('<i>I</i><sub>C</sub>(1 + x)'))

  test('names of files and columns are no symbols', () =>
    expect(proseHtml('see lot_seven.csv, my_column, a_row').markup).toBe('see lot_seven.csv, my_column, a_row'))

  test('markup around a symbol is escaped', () =>
    expect(proseHtml('<h_FE>').markup).toBe('&lt;<i>h</i><sub>FE</sub>&gt;'))
})

test('in a drawing the line goes on where it was', () => {
  const moves = [...symbolSvg('I_CEO').markup.matchAll(/dy="(-?\d+)"/g)].map((m) => Number(m[1]))
  expect(moves.reduce((a, b) => a + b, 0)).toBe(0)
  expect(proseSvg('at I_C 10 mA').markup).toContain('font-size="80%">C</tspan>')
})

test('as plain text it reads without marks', () => expect(symbolText('V_CE(sat)')).toBe('V CE(sat)'))
