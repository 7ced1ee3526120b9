import { type Conditions, conditionSymbols, type Limit } from '#core/device'
import { isUnit, type Unit } from '#core/quantity'
import { coverageFactor } from '#core/uncertainty'
import { type Figure, figureText, measuredFigure, plainFigure } from '#report/typeset'
import type { Bounds, Condition } from './model.ts'

const unitOfLetter: Readonly<Record<string, Unit>> = { I: 'A', V: 'V', R: 'ohm', f: 'Hz', T: 'degC' }

/** Conditions in the order of the trade, each with its unit; published ones whole, measured ones to fewer digits. */
export function conditionList(at: Conditions, digits = 6): readonly Condition[] {
  return conditionSymbols.flatMap((symbol) => {
    const value = at[symbol]
    return value === undefined
      ? []
      : [{ symbol, figure: plainFigure(value, unitOfLetter[symbol.charAt(0)] ?? '1', digits) }]
  })
}

/** Conditions as running text: `I_C 10 mA, V_CE 4.5 V, 25 °C`. A temperature needs no symbol. */
export const conditionsText = (list: readonly Condition[]): string =>
  list.map((c) => (c.symbol === 'T' ? '' : `${c.symbol} `) + figureText(c.figure)).join(', ')

/** A number of a limit; a unit we do not know is printed as it stands. */
const bound = (value: number, unit: string): Figure =>
  isUnit(unit) ? plainFigure(value, unit) : { number: String(value), unit }

/** The published numbers of a limit. */
export const boundsOf = (l: Limit): Bounds => ({
  ...(l.min === undefined ? {} : { min: bound(l.min, l.unit) }),
  ...(l.typ === undefined ? {} : { typ: bound(l.typ, l.unit) }),
  ...(l.max === undefined ? {} : { max: bound(l.max, l.unit) }),
})

/** A probability without false certainty: never 100 % or 0 %. */
export function probabilityText(p: number): string {
  if (p > 0.999) return 'over 99.9 %'
  if (p < 0.001) return 'under 0.1 %'
  if (p > 0.985 || p < 0.015) return `${(p * 100).toFixed(1)} %`
  return `${(p * 100).toFixed(0)} %`
}

/** A temperature with the half-width that covers 95 %, as everywhere on the page. */
export const temperatureFigure = (celsius: number, u: number): Figure =>
  measuredFigure(celsius, coverageFactor(Number.POSITIVE_INFINITY) * u, 'degC')

/** A number of things: `1 part`, `12 parts`. */
export const counted = (n: number, thing: string): string =>
  `${n.toLocaleString('en-US')} ${thing}${n === 1 ? '' : 's'}`

/** A list in a sentence: `a, b and c`. */
export function sentenceList(items: readonly string[]): string {
  if (items.length < 2) return items.join('')
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
}
