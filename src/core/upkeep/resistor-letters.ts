import { FaultError } from '#core/fault'

/** Multipliers of the letter code, the letter standing where the decimal point would. Source: IEC 60062:2016, clause 4. */
const multipliers = { R: 1, K: 1e3, M: 1e6, G: 1e9 } as const

/**
 * Resistance of a letter code, ohm.
 *
 * @throws {FaultError} `bad-input` for what is no letter code
 * @see IEC 60062:2016, clause 4
 * @example readLetterCode('4K7') // 4700
 */
export function readLetterCode(code: string): number {
  const m = /^(\d{0,4})([RKMG])(\d{0,4})$/.exec(code.trim().toUpperCase())
  if (m === null || m[1]! + m[3]! === '')
    throw new FaultError({
      code: 'bad-input',
      place: { field: 'code' },
      value: code,
      problem: 'is not a letter code of a resistance',
      mend: 'Write it as R47, 4R7, 47K or 4M7.',
    })
  const power = Math.log10(multipliers[m[2] as keyof typeof multipliers])
  return Number(`${m[1]}.${m[3]}e${power}`)
}
