import { expect, test } from 'vitest'
import { tableLines, wrapped } from './table.ts'

const head = ['>n', 'part', 'why']
const rows = [
  ['1', 'OP-1', 'It holds from 0 °C to 50 °C; at 52 °C the current has moved by more than 50 %.'],
  ['12', 'OP-12', 'It holds.'],
]

test('a table is as wide as it takes where there is no terminal', () =>
  expect(tableLines(head, rows, undefined)).toEqual([
    ' n  part   why',
    ' 1  OP-1   It holds from 0 °C to 50 °C; at 52 °C the current has moved by more than 50 %.',
    '12  OP-12  It holds.',
  ]))

test('in a terminal its last column is broken at blanks and goes on below itself', () =>
  expect(tableLines(head, rows, 44)).toEqual([
    ' n  part   why',
    ' 1  OP-1   It holds from 0 °C to 50 °C; at',
    '           52 °C the current has moved by',
    '           more than 50 %.',
    '12  OP-12  It holds.',
  ]))

test('where no room is left, the columns that do not fit stand below their row with their names', () => {
  expect(tableLines(head, rows.slice(1), 12)).toEqual([' n  part', '12  OP-12', '    why: It holds.'])
  const numbers = ['part', '>value', '>at 25 °C']
  expect(
    tableLines(
      numbers,
      [
        ['OP-1', '1.20(2) mA', '1.50(3) mA'],
        ['OP-2', '1 mA', ''],
      ],
      20,
    ),
  ).toEqual(['part       value', 'OP-1  1.20(2) mA', '    at 25 °C:', '    1.50(3) mA', 'OP-2        1 mA'])
})

test('where not even two columns fit, the table stays whole', () =>
  expect(tableLines(head, rows, 6)).toEqual(tableLines(head, rows, undefined)))

test('rows that are short of cells, and tables without rows', () => {
  expect(tableLines(['a', 'b'], [['x']], 80)).toEqual(['a  b', 'x'])
  expect(tableLines(['a', 'b'], [], 80)).toEqual(['a  b'])
})

test('a sentence is broken to the terminal, and never wider than 80 columns', () => {
  const text = 'word '.repeat(40).trim()
  const longest = (columns: number | undefined): number =>
    Math.max(...wrapped(text, '  ', columns).map((l) => l.length))
  expect([longest(undefined), longest(200), longest(44)]).toEqual([80, 80, 44].map((n) => n - ((n - 1) % 5)))
})
