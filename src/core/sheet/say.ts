import type { ConditionSymbol, Conditions } from '#core/device'
import { printPlain, type Unit } from '#core/quantity'

const plain = { digits: 3, ascii: true } as const

/** A value in a sentence: `4.5 V`, `250 uA`, `85 degC`; plain ASCII, three digits. */
export const say = (value: number, unit: Unit): string => printPlain(value, unit, plain)

/** Rounded down to two significant digits, as a person can set it. */
export function settable(value: number): number {
  const power = Math.floor(Math.log10(value)) - 1
  const digits = Math.floor(value / 10 ** power + 1e-9)
  return Number(`${digits}e${power}`)
}

/** A symbol as part of a step id: `V_CE(sat)` becomes `v-ce-sat`. */
export const slug = (symbol: string): string =>
  symbol
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')

const unitOf = (symbol: ConditionSymbol): Unit => {
  if (symbol === 'T') return 'degC'
  if (symbol === 'f') return 'Hz'
  return symbol.startsWith('I') ? 'A' : symbol.startsWith('R') ? 'ohm' : 'V'
}

/** Conditions in a sentence: `I_C 12 mA, V_CE 4.5 V`. */
export const sayConditions = (at: Conditions): string =>
  Object.entries(at)
    .map(([symbol, value]) => `${symbol} ${say(value, unitOf(symbol as ConditionSymbol))}`)
    .join(', ')

/** First letter made large, for a sentence that begins with a name. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** Words joined as people do: `a, b and c`. */
export const listed = (words: readonly string[], last = 'and'): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`
