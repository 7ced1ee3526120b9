import { type NumberScheme, transistors } from './number-scheme.ts'
import type { Family, Material } from './part-type.ts'

interface Kind {
  readonly what: string
  readonly material?: Material
  readonly families?: readonly Family[]
}

const kinds: Readonly<Record<string, Kind>> = {
  A: { what: 'a diode', families: ['diode'] },
  C: { what: 'a transistor', families: transistors },
  D: { what: 'a power transistor', families: transistors },
  AP: { what: 'a photodiode' },
  CP: { what: 'a phototransistor' },
  AZ: { what: 'a Zener diode', material: 'Si', families: ['zener'] },
  RP: { what: 'a photoconductive cell' },
}

/** From 200 on, OA and OC numbers are silicon; below, germanium. */
const firstSilicon = 200

/** Old European numbers, which follow the letters of valves: O for no heater, then A diode, C triode. */
export const oldEuropean: NumberScheme = {
  id: 'old-european',
  name: 'old European (valve letters)',
  source: 'valve designation of 1934 as makers carried it on to semiconductors; table from memory',
  read: (plain) => {
    const m = /^O(AP|CP|AZ|RP|A|C|D)(\d{2,3})(.*)$/.exec(plain)
    if (m === null) return undefined
    const kind = kinds[m[1]!]!
    const serial = Number(m[2])
    const byNumber = m[1] === 'A' || m[1] === 'C'
    const material =
      kind.material ?? (byNumber ? (serial >= firstSilicon ? 'Si' : 'Ge') : m[1] === 'D' ? 'Ge' : undefined)
    const name = material === 'Si' ? 'silicon' : 'germanium'
    return {
      sure: true,
      ...(material === undefined ? {} : { material }),
      ...(kind.families === undefined ? {} : { families: kind.families }),
      says: [
        'O says that it has no heater, so it is a semiconductor.',
        `The next letters stand for ${kind.what}.`,
        ...(material === undefined
          ? []
          : [
              `${byNumber ? 'Its number' : 'Its kind'} goes with ${name}${byNumber ? ` (${firstSilicon} and up are silicon)` : ''}.`,
            ]),
      ],
      doesNotSay: [
        ...(m[1] === 'C' ? ['OC does not tell PNP from NPN: OC71 is PNP, OC139 is NPN.'] : []),
        'The figures are a serial number and do not tell the use.',
      ],
    }
  },
}
