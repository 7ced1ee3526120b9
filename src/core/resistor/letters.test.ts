import fc from 'fast-check'
import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { eSeries, readLetterCode, toleranceLetters, writeLetterCode } from './index.ts'

/** Letter codes as IEC 60062 gives them, read in a public transcription of its clause 4. */
const published = [
  ['R47', 0.47],
  ['4R7', 4.7],
  ['470R', 470],
  ['4K7', 4700],
  ['47K', 47_000],
  ['47K3', 47_300],
  ['470K', 470_000],
  ['4M7', 4_700_000],
] as const

test.each(published)('%s is %d ohm, both ways', (code, ohm) => {
  expect(readLetterCode(code)).toEqual({ ohm })
  expect(writeLetterCode({ ohm })).toBe(code)
})

/** Letters of the limit of error as public transcriptions of IEC 60062, clause 5, agree on them, percent. */
test.each([
  ['B', 0.1],
  ['C', 0.25],
  ['D', 0.5],
  ['F', 1],
  ['G', 2],
  ['J', 5],
  ['K', 10],
  ['M', 20],
] as const)('%s is %d %%, both ways', (letter, percent) => {
  expect(readLetterCode(`4k7${letter}`)).toEqual({ ohm: 4700, tolerance: percent / 100 })
  expect(writeLetterCode({ ohm: 4700, tolerance: percent / 100 })).toBe(`4K7${letter}`)
})

test('what was written is read back', () =>
  fc.assert(
    fc.property(
      fc.constantFrom(...eSeries.E192),
      fc.integer({ min: -4, max: 7 }),
      fc.constantFrom(undefined, ...Object.values(toleranceLetters)),
      (digits, power, tolerance) => {
        const said = { ohm: Number(`${digits}e${power}`), ...(tolerance === undefined ? {} : { tolerance }) }
        expect(readLetterCode(writeLetterCode(said)!)).toEqual(said)
      },
    ),
  ))

test.each(['', 'K', '4X7', '4K7A', '4.7k'])('"%s" is refused', (code) =>
  expect(() => readLetterCode(code)).toThrow(FaultError),
)

test.each([[{ ohm: 0.00001 }], [{ ohm: 123_456 * 1.001 }], [{ ohm: 4700, tolerance: 0.07 }]])(
  'no letters say %j',
  (said) => expect(writeLetterCode(said)).toBeUndefined(),
)
