import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { readLetterCode } from './index.ts'

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

test.each(published)('%s is %d ohm', (code, ohm) => expect(readLetterCode(code)).toBe(ohm))

test.each(['', 'K', '4X7', '4K7K'])('"%s" is refused', (code) => expect(() => readLetterCode(code)).toThrow(FaultError))
