import { FaultError } from '#core/fault'

/** Multipliers of the letter code, the letter standing where the decimal point would. Source: IEC 60062:2016, clause 4. */
const multipliers = { R: 1, K: 1e3, M: 1e6, G: 1e9 } as const

/**
 * Letters of the limit of error, as a part of the value. Source: IEC 60062:2016, clause 5; B, C, D, F, G, J, K and M as
 * published, the others from memory.
 */
export const toleranceLetters = {
  E: 0.00005,
  L: 0.0001,
  P: 0.0002,
  W: 0.0005,
  B: 0.001,
  C: 0.0025,
  D: 0.005,
  F: 0.01,
  G: 0.02,
  H: 0.03,
  J: 0.05,
  K: 0.1,
  M: 0.2,
  N: 0.3,
} as const

/** What a letter code says: resistance, and the limit of error as a part of it where a letter for it follows. */
export interface LetterCode {
  readonly ohm: number
  readonly tolerance?: number
}

/** Letter codes as they look: digits around one letter of the multiplier, then perhaps one of the limit of error. */
const form = /^(\d{0,4})([RKMG])(\d{0,4})([A-Z]?)$/

/** Whether a text has the look of a letter code: `4K7`, `R47J`. */
export const isLetterCode = (text: string): boolean => form.test(text.trim().toUpperCase())

/**
 * Reads a letter code.
 *
 * @throws {FaultError} `bad-input` for what is no letter code
 * @see IEC 60062:2016, clauses 4 and 5
 * @example readLetterCode('4K7J') // { ohm: 4700, tolerance: 0.05 }
 */
export function readLetterCode(code: string): LetterCode {
  const m = form.exec(code.trim().toUpperCase())
  if (m === null || m[1]! + m[3]! === '' || !(m[4] === '' || m[4]! in toleranceLetters))
    throw new FaultError({
      code: 'bad-input',
      place: { field: 'code' },
      value: code,
      problem: 'is not a letter code of a resistance',
      mend: 'Write it as R47, 4R7, 47K or 4M7, with a letter for the tolerance behind it where there is one: 4K7J.',
    })
  const power = Math.log10(multipliers[m[2] as keyof typeof multipliers])
  const ohm = Number(`${m[1]}.${m[3]}e${power}`)
  return m[4] === '' ? { ohm } : { ohm, tolerance: toleranceLetters[m[4] as keyof typeof toleranceLetters] }
}

/**
 * Letter code of a resistance; undefined where it takes more than four digits, or no letter says the limit of error.
 *
 * @see IEC 60062:2016, clauses 4 and 5
 * @example writeLetterCode({ ohm: 4700, tolerance: 0.05 }) // '4K7J'
 */
export function writeLetterCode({ ohm, tolerance }: LetterCode): string | undefined {
  const [letter, unit] = Object.entries(multipliers).findLast(([, m]) => ohm >= m) ?? ['R', 1]
  const [whole = '', part = ''] = String(Number((ohm / unit).toPrecision(12))).split('.')
  const limit = tolerance === undefined ? '' : letterFor(tolerance)
  if (limit === undefined || !/^\d{1,4}$/.test(whole) || !/^\d{0,4}$/.test(part)) return undefined
  return `${whole === '0' ? '' : whole}${letter}${part}${limit}`
}

const letterFor = (tolerance: number): string | undefined =>
  Object.entries(toleranceLetters).find(([, part]) => Math.abs(part / tolerance - 1) < 1e-9)?.[0]
