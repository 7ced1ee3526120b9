import { describe, expect, test, vi } from 'vitest'
import { explainTypeNumber, partTypeExample, readPartTypes } from '#core/device'
import { parseValue } from '#core/quantity'
import { parseShown, readingsExampleCsv, readReadings, readTester, testerExample } from '#core/tester'
import { exampleTester, take } from './take.ts'

vi.setConfig({ testTimeout: 180_000 })

/** Runs of one sign or word: what makes a careless pattern or a deep nesting take for ever. */
const pieces = [
  ...[' ', '\t', ',', ';', '"', "'", '(', ')', '[', ']', '{', '}', '#', '-', '+', '.', '0', '9', 'e', 'a', 'é', '🙂'],
  ...[
    '\n',
    '\r',
    '\r\n',
    '- ',
    ': ',
    'a: ',
    '[[',
    '{"a":',
    '[{',
    '""',
    '",',
    '# \n',
    '1e',
    '+-',
    '(1)',
    'x10^',
    '&a ',
    '*a ',
    '? ',
    '| ',
    '\\',
  ],
]

/** Long enough that a pattern which tries every place twice would be noticed; YAML's reader is slower by nature. */
const lengths = { plain: 40_000, yaml: 1500 } as const

const runOf = (piece: string, length: number): string => piece.repeat(Math.ceil(length / piece.length))

/** A long run at the start, in the middle of a word, and at the end of a text. */
const around = (text: string, run: string): readonly string[] => {
  const middle = Math.floor(text.length / 2)
  return [run + text, text.slice(0, middle) + run + text.slice(middle), text + run, run, `${run}x`]
}

describe('long runs of', () => {
  test.each(pieces)('%j', (piece) => {
    const run = runOf(piece, lengths.plain)
    const short = runOf(piece, lengths.yaml)
    for (const text of around(readingsExampleCsv, run)) take(() => readReadings(text, { tester: exampleTester }))
    for (const text of around('part,reads,shown [uA]\nA1,I_C,12', run)) take(() => readReadings(text))
    take(() => readReadings(`part,reads,shown${run}\nA1,I_C,12 uA`))
    take(() => readReadings(`part,reads,shown (${run}\nA1,I_C,12 uA`))
    take(() =>
      readReadings(
        `{"format":"germane/readings/1","readings":[{"part":${JSON.stringify(run)},"reads":"I_C","shown":"1 uA"}]}`,
      ),
    )
    for (const text of around(testerExample, short)) take(() => readTester(text))
    for (const text of around(partTypeExample, short)) take(() => readPartTypes(text))
    take(() => parseValue(run))
    take(() => parseValue(`12${run.slice(0, 70)} uA`))
    take(() => parseShown(run, 'I_C', exampleTester, run))
    take(() => explainTypeNumber(run))
    take(() => explainTypeNumber(`AC${run}`))
  })

  test('blank rows and notes before a table', () => {
    for (const line of ['\n', '# a note\n', '  \n', '\r\n', '#\n\n'])
      take(() => {
        const read = readReadings(line.repeat(3000) + readingsExampleCsv)
        expect(read.ok).toBe(true)
        return read
      })
  })
})
