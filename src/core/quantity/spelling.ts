import type { Unit } from './unit.ts'

/** What a unit text means: our unit, and the number it stands for as `factor` x 10^`power`. */
export interface Spelling {
  readonly unit: Unit
  readonly power: number
  readonly factor: number
}

/** SI prefixes people write at a bench, after the micro signs have been made `u`. */
export const prefixes: Readonly<Record<string, number>> = {
  f: -15,
  p: -12,
  n: -9,
  u: -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  G: 9,
  T: 12,
}

/** Prefixes that may stand before a unit written in the wrong case: `ma`, `kv`; never mega, which would be a trap. */
const smallPrefixes = ['f', 'p', 'n', 'u', 'm', 'k']

/** Symbols that take every prefix. */
const symbols: readonly (readonly [text: string, unit: Unit, power: number])[] = [
  ['A', 'A', 0],
  ['V', 'V', 0],
  ['ohm', 'ohm', 0],
  ['ohms', 'ohm', 0],
  ['Ohm', 'ohm', 0],
  ['S', 'S', 0],
  ['mho', 'S', 0],
  ['W', 'W', 0],
  ['K', 'K', 0],
  ['s', 's', 0],
  ['Hz', 'Hz', 0],
  ['c/s', 'Hz', 0],
  ['F', 'F', 0],
  ['m', 'm', 0],
  ['rad', 'rad', 0],
  ['g', 'kg', -3],
]

/** Symbols in the wrong case that can mean only one thing. */
const lowerCase: readonly (readonly [text: string, unit: Unit])[] = [
  ['a', 'A'],
  ['v', 'V'],
  ['w', 'W'],
]

const words: readonly (readonly [text: string, unit: Unit])[] = [
  ['amp', 'A'],
  ['ampere', 'A'],
  ['volt', 'V'],
  ['ohm', 'ohm'],
  ['watt', 'W'],
  ['farad', 'F'],
  ['second', 's'],
  ['hertz', 'Hz'],
  ['siemens', 'S'],
  ['metre', 'm'],
  ['meter', 'm'],
  ['kelvin', 'K'],
]

const prefixWords: readonly (readonly [text: string, power: number])[] = [
  ['pico', -12],
  ['nano', -9],
  ['micro', -6],
  ['milli', -3],
  ['kilo', 3],
  ['mega', 6],
]

/** Spellings that take no prefix. */
const alone: readonly (readonly [text: string, unit: Unit, power: number, factor?: number])[] = [
  ['1', '1', 0],
  ['%', '1', -2],
  ['percent', '1', -2],
  ['permille', '1', -3],
  ['ppm', '1', -6],
  ['ppb', '1', -9],
  ['R', 'ohm', 0],
  ['r', 'ohm', 0],
  ['OHM', 'ohm', 0],
  ['OHMS', 'ohm', 0],
  ['kilohm', 'ohm', 3],
  ['kilohms', 'ohm', 3],
  ['megohm', 'ohm', 6],
  ['megohms', 'ohm', 6],
  ['Megohm', 'ohm', 6],
  ['Megohms', 'ohm', 6],
  ['degC', 'degC', 0],
  ['degc', 'degC', 0],
  ['C', 'degC', 0],
  ['celsius', 'degC', 0],
  ['Celsius', 'degC', 0],
  ['sec', 's', 0],
  ['secs', 's', 0],
  ['min', 's', 0, 60],
  ['mins', 's', 0, 60],
  ['minute', 's', 0, 60],
  ['minutes', 's', 0, 60],
  ['h', 's', 0, 3600],
  ['hr', 's', 0, 3600],
  ['hour', 's', 0, 3600],
  ['hours', 's', 0, 3600],
  ['hz', 'Hz', 0],
  ['khz', 'Hz', 3],
  ['uf', 'F', -6],
  ['nf', 'F', -9],
  ['pf', 'F', -12],
  ['cm', 'm', -2],
  ['deg', 'rad', 0, Math.PI / 180],
  ['degree', 'rad', 0, Math.PI / 180],
  ['degrees', 'rad', 0, Math.PI / 180],
  ['div', 'div', 0],
  ['divs', 'div', 0],
  ['division', 'div', 0],
  ['divisions', 'div', 0],
]

const kelvins = ['K', 'degC', 'C', 'celsius']

function build(): ReadonlyMap<string, Spelling> {
  const table = new Map<string, Spelling>()
  const add = (text: string, unit: Unit, power: number, factor = 1): void => {
    if (!table.has(text)) table.set(text, { unit, power, factor })
  }
  for (const [text, unit, power, factor] of alone) add(text, unit, power, factor)
  for (const [text, unit, power] of symbols) {
    add(text, unit, power)
    for (const [p, n] of Object.entries(prefixes)) add(p + text, unit, power + n)
  }
  for (const [text, unit] of lowerCase) {
    add(text, unit, 0)
    for (const p of smallPrefixes) add(p + text, unit, prefixes[p]!)
  }
  for (const [text, unit] of words)
    for (const ending of ['', 's'])
      for (const [p, n] of [['', 0] as const, ...prefixWords]) add(p + text + ending, unit, n)
  for (const k of kelvins) addPerKelvin(add, k)
  return table
}

function addPerKelvin(add: (text: string, unit: Unit, power: number) => void, k: string): void {
  for (const one of ['1', '']) add(`${one}/${k}`, '1/K', 0)
  add(`%/${k}`, '1/K', -2)
  add(`ppm/${k}`, '1/K', -6)
  for (const [p, n] of [['', 0] as const, ...Object.entries(prefixes)]) {
    add(`${p}V/${k}`, 'V/K', n)
    for (const w of ['W', 'w']) add(`${k}/${p}${w}`, 'K/W', n === 0 ? 0 : -n)
    if (k === 'K') add(`${p}K/W`, 'K/W', n)
  }
}

/** Every unit text that is understood, blanks taken out and signs made plain (see `plainSigns`). */
export const spellings: ReadonlyMap<string, Spelling> = build()

const signs: Readonly<Record<string, string>> = {
  '\u00b5': 'u',
  '\u03bc': 'u',
  '\u2126': 'ohm',
  '\u03a9': 'ohm',
  '\u2103': 'degC',
  '\u00b0': 'deg',
  '\u2030': 'permille',
  '\u2212': '-',
  '\u2013': '-',
  '\u00b1': '+-',
  '\u00d7': 'x',
  '\u00b7': 'x',
  '\u00a0': ' ',
  '\u2009': ' ',
  '\u202f': ' ',
}

const raised = '\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079'

/** Micro, ohm, degree, minus and plus-minus signs, thin blanks and raised digits made plain ASCII. */
export const plainSigns = (text: string): string =>
  text
    .replace(/(\d)[\u00a0\u2009\u202f](?=\d{3}(?!\d))/g, '$1')
    .replace(/\u207b?[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+/g, (run) =>
      [...run].reduce((all, c) => all + (c === '\u207b' ? '-' : String(raised.indexOf(c))), '^'),
    )
    .replace(/[^\x20-\x7e]/g, (c) => signs[c] ?? c)

/** What each unit measures and how a person would write it, for sentences. */
export const unitWords: Readonly<Record<Unit, { readonly what: string; readonly example: string }>> = {
  '1': { what: 'a number', example: '118' },
  A: { what: 'a current', example: '12.5 uA' },
  V: { what: 'a voltage', example: '0.65 V' },
  ohm: { what: 'a resistance', example: '4.7 kohm' },
  S: { what: 'a conductance', example: '35 mS' },
  W: { what: 'a power', example: '150 mW' },
  K: { what: 'a temperature in kelvin', example: '298 K' },
  degC: { what: 'a temperature in degrees Celsius', example: '25 degC' },
  'K/W': { what: 'a thermal resistance', example: '250 K/W' },
  'V/K': { what: 'a voltage per kelvin', example: '-2 mV/K' },
  '1/K': { what: 'a change per kelvin', example: '0.39 %/K' },
  s: { what: 'a time', example: '5 s' },
  Hz: { what: 'a frequency', example: '1 kHz' },
  F: { what: 'a capacitance', example: '100 nF' },
  div: { what: 'a number of divisions', example: '7.3 div' },
  m: { what: 'a length', example: '12 mm' },
  rad: { what: 'an angle', example: '1.5 rad' },
  kg: { what: 'a mass', example: '0.5 kg' },
}
