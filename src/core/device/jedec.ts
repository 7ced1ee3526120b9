import { diodes, type NumberScheme, thyristors, transistors } from './number-scheme.ts'
import type { Family } from './part-type.ts'

const pattern = /^(JANTXV|JANTX|JANS|JAN)?([1-6])N(\d{1,5})([A-Z]{0,3}?)(R?)(\d?)$/

const byDigit: Readonly<Record<string, { readonly says: string; readonly families?: readonly Family[] }>> = {
  '1': { says: 'It has two electrodes: a diode of some kind.', families: diodes },
  '2': {
    says: 'It has three useful electrodes: a transistor, a thyristor or a unijunction transistor.',
    families: [...transistors, ...thyristors, 'ujt'],
  },
  '3': { says: 'It has four useful electrodes, such as a dual-gate field-effect transistor.' },
  '4': { says: 'It has five useful electrodes; many are optocouplers.' },
  '5': { says: 'It has six useful electrodes; many are optocouplers.' },
  '6': { says: 'It has seven useful electrodes; many are optocouplers.' },
}

/** American numbers as registered with JEDEC: the figure before the N is the number of electrodes less one. */
export const jedec: NumberScheme = {
  id: 'jedec',
  name: 'JEDEC registration (American)',
  source: 'JEDEC JESD370 (EIA-370); quality prefixes by MIL-PRF-19500; suffixes from memory',
  read: (plain) => {
    const m = pattern.exec(plain)
    if (m === null) return undefined
    const [, jan, digit, , suffix, reversed] = m
    const { says, families } = byDigit[digit!]!
    return {
      sure: true,
      ...(families === undefined ? {} : { families }),
      says: [
        says,
        ...(jan === undefined ? [] : [`${jan} is a quality level of the American military specification.`]),
        ...suffixSays(digit!, suffix!),
        ...(reversed === 'R' ? ['R at the end marks the reversed polarity of a stud rectifier.'] : []),
      ],
      doesNotSay: [
        'The serial number does not tell the material.',
        ...(digit === '2'
          ? ['It does not tell NPN from PNP: a neighbouring number may be the complement or nothing alike.']
          : []),
        'It does not tell the use: look the number up.',
      ],
    }
  },
}

function suffixSays(digit: string, suffix: string): readonly string[] {
  if (suffix === '') return []
  if (digit === '1')
    return [`The suffix ${suffix} of a voltage regulator diode is its tolerance; of other diodes, a later version.`]
  return /^[A-C]$/.test(suffix)
    ? [`The suffix ${suffix} is a later registration, which meets or betters the earlier one.`]
    : [`The suffix ${suffix} is a variant; what it means depends on the type.`]
}
