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

const isBare = (text: string): boolean => /^[+-]?[\d.,]*\d[\d.,]*(?:[eE][+-]?\d+)?$/.test(text)

/**
 * What was meant by what was typed: a bare number has the unit that stands beside the field, and the beginning of a
 * word is that word.
 */
export function meant(text: string, unit: string | undefined, states: readonly ReadingState[]): string {
  const typed = text.trim()
  if (isBare(typed)) return unit === undefined ? typed : `${typed} ${unit}`
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
  const unit = typed.unit ?? unitsFor(sheet, step, range)[0]
  return parseShown(meant(typed.text, unit, statesFor(sheet, step)), step.reads, sheet.tester, range)
}

/** Whether a text is only begun: "7." or "-" is no mistake yet. */
export const isBegun = (text: string): boolean => /^[+-]?\d*[.,]?$/.test(text.trim())
