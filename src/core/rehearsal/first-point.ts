import type { RunSheet, Step } from '#core/sheet'
import type { ReadingKind } from '#core/tester'

/**
 * A run sheet cut short: the readings of these kinds up to the first operating point, and what is set for them. For many
 * parts where two points of each would be too much.
 */
export function firstPoint(sheet: RunSheet, reads: readonly ReadingKind[]): RunSheet {
  const isKept = (s: Step): boolean => s.kind === 'read' && s.point < 2 && reads.includes(s.reads)
  const last = sheet.steps.findLastIndex(isKept)
  return { ...sheet, steps: sheet.steps.filter((s, i) => i <= last && (s.kind !== 'read' || isKept(s))) }
}
