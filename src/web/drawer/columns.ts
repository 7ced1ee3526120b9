import { isUnit, unitText } from '#core/quantity'
import { bySymbol, parameterName } from '#report/model'
import type { Parts, Values, WordField } from './parts.ts'

/** A column one can choose. */
export type Column =
  | { readonly kind: 'tag'; readonly id: 'tag'; readonly name: string; readonly width: number }
  | { readonly kind: 'word'; readonly id: WordField; readonly name: string; readonly width: number }
  | { readonly kind: 'mark'; readonly id: 'notes' | 'photos'; readonly name: string; readonly width: number }
  | { readonly kind: 'value'; readonly id: string; readonly name: string; readonly width: number }

const fixed: readonly Column[] = [
  { kind: 'tag', id: 'tag', name: 'Tag', width: 6.5 },
  { kind: 'word', id: 'types', name: 'Type', width: 6 },
  { kind: 'word', id: 'verdicts', name: 'Verdict', width: 12.5 },
]
const after: readonly Column[] = [
  { kind: 'word', id: 'statuses', name: 'Status', width: 6.5 },
  { kind: 'word', id: 'places', name: 'Place', width: 9 },
  { kind: 'word', id: 'usedIn', name: 'Used in', width: 9 },
  { kind: 'word', id: 'reserved', name: 'Reserved for', width: 12 },
  { kind: 'word', id: 'lots', name: 'Lot', width: 9 },
  { kind: 'word', id: 'states', name: 'State', width: 7 },
  { kind: 'mark', id: 'notes', name: 'Note', width: 4 },
  { kind: 'mark', id: 'photos', name: 'Photos', width: 5 },
]

/** Every column there is for a drawer. */
export function columnsOf(parts: Parts): readonly Column[] {
  const symbols = [...parts.symbols.keys()].sort(bySymbol)
  const values = symbols.map((id): Column => ({ kind: 'value', id, name: parameterName(id), width: 7.75 }))
  return [...fixed, ...values, ...after]
}

/** Symbols shown at first, of those there are: gain with its leakage taken out, else as read, and the leakages. */
const firstSymbols: readonly (readonly string[])[] = [['h_FE0', 'h_FE0(I_CBO)', 'h_FE'], ['I_CEO'], ['I_CBO']]

/** Columns shown until one chooses. */
export function columnsAtFirst(parts: Parts): readonly string[] {
  const values = firstSymbols.map((list) => list.find((s) => parts.symbols.has(s))).filter((s) => s !== undefined)
  return ['tag', 'types', 'verdicts', ...values, 'statuses', 'places']
}

/** A unit with its prefix, in which a whole column is written so that its numbers can be compared by eye. */
export interface Prefixed {
  readonly power: number
  readonly text: string
}

const letters: readonly (readonly [power: number, letter: string])[] = [
  [-12, 'p'],
  [-9, 'n'],
  [-6, 'µ'],
  [-3, 'm'],
  [0, ''],
  [3, 'k'],
]

const takesPrefix = new Set(['A', 'V', 'ohm', 'S', 'W'])

/** Units one can choose for a column. */
export function unitsOf(unit: string): readonly Prefixed[] {
  const text = isUnit(unit) ? unitText(unit) : unit
  if (!takesPrefix.has(unit)) return [{ power: 0, text }]
  return letters.map(([power, letter]) => ({ power, text: `${letter}${text}` }))
}

const usual = new WeakMap<Values, Prefixed>()

/** The unit that suits most of a column's values. */
export function usualUnit(values: Values): Prefixed {
  const known = usual.get(values)
  if (known !== undefined) return known
  const some: number[] = []
  const step = Math.max(1, Math.floor(values.value.length / 2000))
  for (let i = 0; i < values.value.length; i += step) {
    const v = Math.abs(values.value[i]!)
    if (v > 0) some.push(v)
  }
  const middle = some.sort((a, b) => a - b)[Math.floor(some.length / 2)] ?? 1
  const list = unitsOf(values.unit)
  const found = list.findLast((u) => 10 ** u.power <= middle) ?? list[0]!
  usual.set(values, found)
  return found
}

/** A number and its half-width in a fixed unit, cut where the half-width ends. */
export function inUnit(value: number, half: number, unit: Prefixed): readonly [number: string, half: string] {
  if (Number.isNaN(value)) return ['', '']
  const scale = 10 ** unit.power
  const [v, h] = [value / scale, half / scale]
  if (!(h > 0)) return [signed(Number(v.toPrecision(4)).toString()), '']
  const lead = Math.floor(Math.log10(h))
  const digits = h / 10 ** lead < 2.95 ? 1 - lead : -lead
  const places = Math.max(0, Math.min(12, digits))
  return [signed(v.toFixed(places)), h.toFixed(places)]
}

const signed = (text: string): string => text.replace('-', '\u2212')
