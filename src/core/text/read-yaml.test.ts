import fc from 'fast-check'
import { expect, test } from 'vitest'
import { explain } from '#core/fault'
import { placeOf, valueText } from './document.ts'
import { readYaml } from './read-yaml.ts'

const faultsOf = (text: string): readonly string[] => {
  const read = readYaml(text, { file: 'a.yaml' })
  return read.ok ? [] : read.faults.map(explain)
}

const documentOf = (text: string) => {
  const read = readYaml(text, { file: 'a.yaml' })
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  return read.document
}

test('a YAML text gives its data and the place of every value', () => {
  const d = documentOf('id: bench\nranges:\n  - id: low\n    shunt: 12.1 ohm\n  - { id: high, shunt: 0.1 ohm }\n')
  expect(d.data).toEqual({
    id: 'bench',
    ranges: [
      { id: 'low', shunt: '12.1 ohm' },
      { id: 'high', shunt: '0.1 ohm' },
    ],
  })
  expect(d.find(['ranges', 0, 'shunt'])).toEqual({ line: 4, column: 12, text: '12.1 ohm' })
  expect(d.find(['ranges', 0, 'shunt'], 'key')).toMatchObject({ line: 4, column: 5 })
  expect(d.find(['ranges', 1, 'shunt'])).toMatchObject({ line: 5, text: '0.1 ohm' })
  expect(d.find(['ranges', 7])).toBeUndefined()
})

test('a JSON text gives the same places', () => {
  const d = documentOf('{"id": "bench",\n "ranges": [\n  {"id": "a\\"b", "shunt": "12.1 ohm"}, 7]}')
  expect(d.kind).toBe('json')
  expect(d.find(['ranges', 0, 'shunt'])).toEqual({ line: 3, column: 27, text: '"12.1 ohm"' })
  expect(d.find(['ranges', 0, 'shunt'], 'key')).toMatchObject({ line: 3, column: 18 })
  expect(d.find(['ranges', 1])).toEqual({ line: 3, column: 40, text: '7' })
  expect(valueText(d, ['ranges', 0, 'shunt'])).toBe('12.1 ohm')
})

test('a place that is not there is named by what encloses it', () => {
  const d = documentOf('a: 1\nranges:\n  - id: low\n')
  expect(placeOf(d, ['ranges', 0, 'shunt'])).toEqual({ file: 'a.yaml', line: 3, column: 5, field: 'ranges[1].shunt' })
})

test.each([
  ['a: 1\na: 2', 'a.yaml, line 2:1: "a" is given twice. Keep one of them.'],
  ['{"a": 1, "b": {"c": 1, "c": 2}}', 'a.yaml, line 1:24: "c" is given twice. Keep one of them.'],
  [
    'a: 1\n? [b, c]\n: 2',
    'a.yaml, line 2:3: "a group" stands in the place of a key. Write a plain word before the colon.',
  ],
  ['a: &x 1\nb: *x', 'a.yaml, line 2:4: "*x" points to another place. Write the value out in full here.'],
  ['a: 1\n\tb: 2', 'a.yaml, line 2:1: "b" starts with a tab. Indent with blanks.'],
  ['a: 1\n---\nb: 2', 'begins a second document'],
  ['name: Bench: old', 'has a second colon on its line. Put text that has a colon in quotes.'],
  ['', 'a.yaml: the text is empty. Check that the right file was given.'],
  ['a\0b: 1', 'is not plain text'],
  ['a: \ufffdA', 'a.yaml, line 1:4: the text has letters that are not UTF-8.'],
  [`x: ${'['.repeat(20_000)}`, 'a.yaml'],
  [`${'['.repeat(200)}${']'.repeat(200)}`, 'is nested too deeply'],
  ['{"a": 1,}x', 'a.yaml, line 1:'],
])('%j is refused with a sentence', (text, sentence) => {
  const faults = faultsOf(text)
  expect(faults.length).toBeGreaterThan(0)
  expect(faults[0]).toContain(sentence)
})

test('a chain of aliases is refused before it is followed', () => {
  const bomb = ['a0: &a0 [x]', ...Array.from({ length: 40 }, (_, i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}]`)].join(
    '\n',
  )
  expect(faultsOf(bomb)[0]).toContain('points to another place')
})

test('a text that is too long is refused at once', () => {
  expect(faultsOf(`a: ${'x'.repeat(1_100_000)}`)[0]).toContain('is too long')
})

test('nothing anyone may write throws', () => {
  const piece = fc.constantFrom(
    'a',
    ': ',
    '- ',
    '\n',
    '  ',
    '\t',
    '[',
    ']',
    '{',
    '}',
    ',',
    '"',
    "'",
    '&x',
    '*x',
    '#',
    '|',
    '!!t',
    '---',
    '%Y',
    '?',
    '<<',
    '__proto__',
    '1e999',
    'é',
    '\ud800',
  )
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc.array(piece, { maxLength: 40 }).map((p) => p.join('')),
        fc.json(),
      ),
      (text) => {
        const read = readYaml(text)
        expect(read.ok || read.faults.every((f) => explain(f).length > 10)).toBe(true)
      },
    ),
    { numRuns: 3000 },
  )
})

test('whatever JSON says is read as JSON reads it', () => {
  fc.assert(
    fc.property(fc.oneof(fc.object(), fc.array(fc.object())), (value) => {
      const text = JSON.stringify(value)
      const read = readYaml(text)
      expect(read.ok && JSON.stringify(read.document.data)).toBe(text)
    }),
  )
})
