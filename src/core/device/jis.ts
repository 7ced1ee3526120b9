import { type NumberScheme, thyristors } from './number-scheme.ts'
import type { Family, Polarity } from './part-type.ts'

interface Letter {
  readonly what: string
  readonly polarity?: Polarity
  readonly families?: readonly Family[]
}

/** Letters after "2S" and "3S". */
const letters: Readonly<Record<string, Letter>> = {
  A: { what: 'a PNP transistor for high frequencies', polarity: 'PNP', families: ['bjt'] },
  B: { what: 'a PNP transistor for low frequencies', polarity: 'PNP', families: ['bjt'] },
  C: { what: 'an NPN transistor for high frequencies', polarity: 'NPN', families: ['bjt'] },
  D: { what: 'an NPN transistor for low frequencies', polarity: 'NPN', families: ['bjt'] },
  F: { what: 'a thyristor', families: ['scr'] },
  H: { what: 'a unijunction transistor', families: ['ujt'] },
  J: { what: 'a P-channel field-effect transistor', polarity: 'P', families: ['jfet', 'mosfet'] },
  K: { what: 'an N-channel field-effect transistor', polarity: 'N', families: ['jfet', 'mosfet'] },
  M: { what: 'a triac', families: thyristors },
}

/** Letters after "1S". */
const diodeLetters: Readonly<Record<string, string>> = {
  E: 'a tunnel (Esaki) diode',
  G: 'a Gunn diode',
  R: 'a rectifier',
  S: 'a signal diode',
  T: 'an avalanche diode',
  V: 'a variable-capacitance diode',
  Z: 'a Zener diode',
}

const suffixSays = (suffix: string): readonly string[] =>
  suffix === '' ? [] : [`The suffix ${suffix} is an improved version or a gain rank, by maker and type.`]

const silent = [
  'It does not tell germanium from silicon.',
  'The figures are a serial number from 11 up and tell nothing.',
]

/** Japanese numbers: figure of electrodes less one, S for semiconductor, a letter for polarity and use. */
export const jis: NumberScheme = {
  id: 'jis',
  name: 'JIS (Japanese)',
  source: 'JIS C 7012; first figures 0 and 3 and gain ranks from memory',
  read: (plain) => transistor(plain) ?? diode(plain) ?? marking(plain),
}

function transistor(plain: string): ReturnType<NumberScheme['read']> {
  const m = /^([23])S([A-Z])(\d{2,4})([A-Z]*)$/.exec(plain)
  const letter = letters[m?.[2] ?? '']
  if (m === null || letter === undefined) return undefined
  const { polarity, families, what } = letter
  return {
    sure: true,
    ...(polarity === undefined ? {} : { polarity }),
    ...(families === undefined ? {} : { families }),
    says: [
      m[1] === '2'
        ? '2S stands for a semiconductor with three electrodes.'
        : '3S stands for a semiconductor with four electrodes.',
      `The letter ${m[2]} stands for ${what}.`,
      ...suffixSays(m[4]!),
    ],
    doesNotSay: silent,
  }
}

function diode(plain: string): ReturnType<NumberScheme['read']> {
  const m = /^1S([EGRSTVZ]?)(\d{2,4})([A-Z]*)$/.exec(plain)
  if (m === null) return undefined
  const what = diodeLetters[m[1]!]
  return {
    sure: true,
    families: m[1] === 'Z' ? ['zener'] : m[1] === '' ? ['diode', 'zener'] : ['diode'],
    says: [
      '1S stands for a diode.',
      ...(what === undefined ? [] : [`The letter ${m[1]} stands for ${what}.`]),
      ...suffixSays(m[3]!),
    ],
    doesNotSay: silent,
  }
}

/** A marking without "2S": C1815. */
function marking(plain: string): ReturnType<NumberScheme['read']> {
  const m = /^([ABCDFJK])(\d{2,4})([A-Z]*)$/.exec(plain)
  const full = m === null ? undefined : transistor(`2S${plain}`)
  if (full === undefined) return undefined
  return {
    ...full,
    sure: false,
    says: [`"2S" is often left off on the part: it may be 2S${plain}.`, ...full.says.slice(1)],
  }
}
