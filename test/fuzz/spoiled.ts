import fc from 'fast-check'

/** Texts that go wrong in the ways files do: slips, cut-off ends, strange signs, numbers beyond all bounds. */

const strange = [
  ...['', ' ', '\t', '\n', '\r\n', '\r', '\0', '\ufeff', '\ufffd', '\u2028', '\u00a0', '\u202e', '\ud800', '\u001b[2J'],
  ...[
    '0',
    '-0',
    '00',
    '1e999',
    '-1e999',
    '1e-999',
    '1e308',
    '5e-324',
    '9'.repeat(400),
    '0.1e',
    '.',
    ',',
    '1,234',
    '1.234,5',
  ],
  ...[
    'NaN',
    'Infinity',
    '-Infinity',
    'nan',
    'null',
    'true',
    'undefined',
    '0x10',
    '1_000',
    '１２',
    '½',
    '一',
    '𝟙𝟚',
    '🙂',
  ],
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'prototype', 'length', '__proto__: {a: 1}'],
  ...[
    '"',
    "'",
    '""',
    '`',
    '[',
    ']',
    '{',
    '}',
    '[]',
    '{}',
    '(',
    ')',
    ':',
    ': ',
    '- ',
    '#',
    '# ',
    '|',
    '>',
    '?',
    '*a',
    '&a',
    '!!js/undefined',
    '<<: *a',
    '---',
    '...',
    '%',
    '@',
    '\\',
    '\\u0000',
    '\\x',
  ],
  ...[
    'div',
    'uA',
    'µA',
    'MA',
    'kV',
    '%',
    'ppm',
    'degC',
    'ohm',
    'Ω',
    '+-',
    '±',
    '(5)',
    'over',
    'short',
    'clear',
    'no null',
  ],
  ...[
    '=1+1',
    '@SUM(A1)',
    ';',
    'sep=;',
    '\\n',
    '<script>',
    '../../x',
    'CON',
    '-',
    '--json',
    '+',
    '1 +- 1',
    '1 +- 1e999',
    '-1 uA',
    '1e400 uA',
    '4k7',
    '2R2',
  ],
] as const

const strangeText: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...strange) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 12 }) },
  { weight: 1, arbitrary: fc.double().map(String) },
  { weight: 1, arbitrary: fc.nat(200).map((n) => '['.repeat(n)) },
)

type Change = (text: string) => string

/** Somewhere in a text, as a part of its length. */
const place = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true })

const at = (text: string, where: number): number => Math.floor(where * text.length)

const lineChange = (change: (lines: string[], i: number, j: number) => void) =>
  fc.tuple(place, place).map(
    ([a, b]): Change =>
      (text) => {
        const lines = text.split('\n')
        change(lines, Math.floor(a * lines.length), Math.floor(b * lines.length))
        return lines.join('\n')
      },
  )

const word = /[^\s,;:[\]{}"']+/g

const wordChange = (change: (words: readonly string[], i: number, j: number, more: string) => string) =>
  fc.tuple(place, place, strangeText).map(
    ([a, b, more]): Change =>
      (text) => {
        const words = [...text.matchAll(word)]
        const found = words[Math.floor(a * words.length)]
        if (found === undefined) return text + more
        const texts = words.map((w) => w[0])
        const made = change(texts, words.indexOf(found), Math.floor(b * words.length), more)
        return text.slice(0, found.index) + made + text.slice(found.index + found[0].length)
      },
  )

const bitChange = fc.tuple(place, fc.nat(7)).map(
  ([a, bit]): Change =>
    (text) => {
      const i = at(text, a)
      return i >= text.length
        ? text
        : text.slice(0, i) + String.fromCharCode(text.charCodeAt(i) ^ (1 << bit)) + text.slice(i + 1)
    },
)

const cellChange = fc.tuple(place, place, place).map(
  ([a, b, c]): Change =>
    (text) => {
      const lines = text.split('\n')
      const i = Math.floor(a * lines.length)
      const cells = lines[i]!.split(',')
      const [j, k] = [Math.floor(b * cells.length), Math.floor(c * cells.length)]
      ;[cells[j], cells[k]] = [cells[k]!, cells[j]!]
      lines[i] = cells.join(',')
      return lines.join('\n')
    },
)

/** Another number in the place of one: what most slips are, and what gets furthest. */
const numberChange = fc
  .tuple(
    place,
    fc.oneof(
      fc.nat(2000).map(String),
      fc.double({ min: 0, max: 1000, noNaN: true }).map(String),
      fc.constantFrom('0', '0.0001', '1e-9', '1e9', '-1'),
    ),
  )
  .map(
    ([a, number]): Change =>
      (text) => {
        const numbers = [...text.matchAll(/\d+(?:\.\d+)?/g)]
        const found = numbers[Math.floor(a * numbers.length)]
        return found === undefined
          ? text
          : text.slice(0, found.index) + number + text.slice(found.index + found[0].length)
      },
  )

const anyChange: fc.Arbitrary<Change> = fc.oneof(
  { weight: 12, arbitrary: numberChange },
  { weight: 4, arbitrary: wordChange((_words, _i, _j, more) => more) },
  { weight: 2, arbitrary: wordChange((words, i, _j, more) => words[i]! + more) },
  { weight: 2, arbitrary: wordChange((words, _i, j) => words[j]!) },
  { weight: 2, arbitrary: bitChange },
  { weight: 2, arbitrary: cellChange },
  { weight: 1, arbitrary: lineChange((lines, i) => lines.splice(i, 1)) },
  { weight: 1, arbitrary: lineChange((lines, i, j) => lines.splice(i, 0, lines[j]!)) },
  { weight: 1, arbitrary: lineChange((lines, i, j) => ([lines[i], lines[j]] = [lines[j]!, lines[i]!])) },
  { weight: 1, arbitrary: lineChange((lines, i) => (lines[i] = ` ${lines[i]}`)) },
  {
    weight: 2,
    arbitrary: fc.tuple(place, strangeText).map(
      ([a, more]): Change =>
        (t) =>
          t.slice(0, at(t, a)) + more + t.slice(at(t, a)),
    ),
  },
  {
    weight: 1,
    arbitrary: place.map(
      (a): Change =>
        (t) =>
          t.slice(0, at(t, a)),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(place, place, fc.nat(8)).map(
      ([a, b, n]): Change =>
        (t) =>
          t.slice(0, at(t, a)) + t.slice(at(t, a), at(t, b)).repeat(n) + t.slice(at(t, b)),
    ),
  },
)

/** One of the good texts with one to four things gone wrong. */
export const spoiled = (...good: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(fc.constantFrom(...good), fc.array(anyChange, { minLength: 1, maxLength: 4 }))
    .map(([text, changes]) => changes.reduce((t, change) => change(t), text).slice(0, 100_000))

/** Any text at all. */
export const anyText: fc.Arbitrary<string> = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 300 }),
  fc.string({ unit: 'binary', maxLength: 300 }),
  fc.array(strangeText, { maxLength: 30 }).map((parts) => parts.join('')),
  fc.array(strangeText, { maxLength: 30 }).map((parts) => parts.join(',')),
  fc.json({ maxDepth: 4 }),
)

/** A short text such as one types for a value. */
export const anyValue: fc.Arbitrary<string> = fc.oneof(
  {
    weight: 3,
    arbitrary: spoiled(
      '12.5 uA',
      '1,2 mA',
      '-0.65V',
      '4k7',
      '2R2',
      '7.3 div',
      '118',
      '1.234(5) mA',
      '12.5 +- 0.3 mA',
      '100 ohm +- 5 %',
      '(1.2 +- 0.1)e-6 A',
      '0.39 %/K',
      '25 degC',
      '200 ppm',
      '1 x 10^3 ohm',
    ),
  },
  { weight: 1, arbitrary: fc.array(strangeText, { maxLength: 4 }).map((parts) => parts.join('')) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 100 }) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.double(), fc.constantFrom('', ' A', ' uA', 'V', ' div', ' %', ' kohm', ' +- 1 uA'))
      .map(([x, unit]) => `${x}${unit}`),
  },
)
