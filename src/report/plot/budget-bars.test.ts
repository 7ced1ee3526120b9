import { expect, test } from 'vitest'
import { budgetBars, shareText } from './budget-bars.ts'

const figure = { number: '0.68', unit: '\u00b5A' }

test.each([
  [0.553, '55 %'],
  [0.075, '7.5 %'],
  [0.0995, '10 %'],
  [0.0004, '< 0.1 %'],
  [0, '0 %'],
  [1, '100 %'],
  [-0.12, '\u221212 %'],
])('a share of %f reads %s', (share, text) => expect(shareText(share)).toBe(text))

test('each cause is a row that can be read without its bar', () => {
  const table = budgetBars({
    caption: 'Where the doubt in h_FE comes from',
    bars: [
      { label: 'class 2 <movement>', contribution: figure, share: 0.8 },
      { label: 'reading of I_C', contribution: figure, share: 0.2 },
    ],
  })
  expect(table).toContain('<caption>Where the doubt in <i>h</i><sub>FE</sub> comes from</caption>')
  expect(table).toContain('class 2 &lt;movement&gt;')
  expect(table.match(/<th scope="row">/g)).toHaveLength(2)
  expect(table).toContain('<rect width="80.0" height="8"/>')
  expect(table).toContain('aria-hidden="true"')
})

test('a bar never leaves its box', () => {
  const table = budgetBars({ caption: 'c', bars: [{ label: 'a', contribution: figure, share: 1.7 }] })
  expect(table).toContain('<rect width="100.0"')
})
