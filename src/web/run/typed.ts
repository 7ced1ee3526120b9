import type { ReadStep, RunSheet } from '#core/sheet'
import { parseShown, type ReadingState, type ShownParsed } from '#core/tester'

/** Units one can press beside the field; the first is taken for a bare number. */
export function unitsFor(sheet: RunSheet, step: ReadStep, rangeId: string | undefined): readonly string[] {
  if (step.reads === 'short' || step.reads === 'h_FE') return []
  const range = sheet.tester.ranges.find((r) => r.id === rangeId)
  const full = range?.fullScale ?? 1
  const values =
    range?.measures === 'voltage' ? (full > 2 ? ['V'] : ['V', 'mV']) : full > 0.9 ? ['A', 'mA'] : currentUnits(full)
  return sheet.tester.kind === 'needle' ? ['div', ...values] : values
}

const currentUnits = (fullScaleA: number): readonly string[] =>
  fullScaleA > 0.9e-3 ? ['mA', 'uA'] : fullScaleA > 0.9e-6 ? ['uA', 'nA'] : ['nA', 'uA']

/** States one can press in place of a number. */
export function statesFor(sheet: RunSheet, step: ReadStep): readonly ReadingState[] {
  if (step.reads === 'short') return ['clear', 'short', 'open']
  if (step.reads === 'h_FE') return sheet.tester.gain.kind === 'dial' ? ['no null'] : []
  return ['over']
}

/** Units that what is typed may lack. */
export interface Units {
  /** Of a bare number. */
  readonly unit: string | undefined
  /** Of a prefix alone. */
  readonly base: 'A' | 'V' | undefined
}

/** The units of a step, the chosen one for a bare number. */
export function unitsOf(sheet: RunSheet, step: ReadStep, range: string | undefined, chosen: string | undefined): Units {
  const all = unitsFor(sheet, step, range)
  const base = all.length === 0 ? undefined : step.reads.startsWith('V') ? 'V' : 'A'
  return { unit: chosen ?? all[0], base }
}

const isBare = (text: string): boolean => /^[+-]?[\d.,]*\d[\d.,]*(?:[eE][+-]?\d+)?$/.test(text)

/**
 * What was meant by what was typed: a bare number has the unit that stands beside the field, a prefix alone (`12u`) has
 * that of the quantity, and the beginning of a word is that word.
 */
export function meant(text: string, units: Units, states: readonly ReadingState[]): string {
  const { unit, base } = units
  const typed = text.trim()
  if (isBare(typed)) return unit === undefined ? typed : `${typed} ${unit}`
  if (base !== undefined && /^[+-]?[\d.,]*\d[\d.,]*\s*[pnuµmk]$/.test(typed)) return `${typed}${base}`
  const low = typed.toLowerCase()
  const found = low === '' ? [] : states.filter((s) => s.startsWith(low))
  return found.length === 1 ? found[0]! : typed
}

/** What was typed for a step, understood; undefined where nothing stands there. */
export function understood(
  sheet: RunSheet,
  step: ReadStep,
  typed: { readonly text: string; readonly unit?: string | undefined; readonly range?: string | undefined },
): ShownParsed | undefined {
  if (typed.text.trim() === '') return undefined
  const range = typed.range ?? step.range
  const units = unitsOf(sheet, step, range, typed.unit)
  return parseShown(meant(typed.text, units, statesFor(sheet, step)), step.reads, sheet.tester, range)
}

/** Whether a text is only begun: "7." or "-" is no mistake yet. */
export const isBegun = (text: string): boolean => /^[+-]?\d*[.,]?$/.test(text.trim())
