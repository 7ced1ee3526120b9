import type { Term } from '#core/quantity'
import {
  calibrationAt,
  covers,
  type Range,
  type RangeCalibration,
  rangeUnit,
  readoutOf,
  scaleOf,
  seenAtPart,
} from '#core/tester'
import type { RealTester } from './real-tester.ts'
import type { Asked } from './shown.ts'

/** The calibration that corrects a range; nothing where it has none, or is not trusted. */
function correcting({ described }: RealTester, range: Range): RangeCalibration | undefined {
  const found = calibrationAt(described, readoutOf(range))?.range
  return found?.trust === 'not trusted' ? undefined : found
}

/** Whether a value that is shown on a range is corrected by a calibration. */
export function isCorrected(t: RealTester, range: Range, shown: number): boolean {
  const found = correcting(t, range)
  return found !== undefined && covers(found, range, shown)
}

/**
 * What a calibrated range shows too little, as its calibration corrects it, and with one draw of what that leaves open:
 * shown and this make the true value. Beyond the calibrated span it is that of its end.
 */
export function correctionErrors(t: RealTester, asked: Asked, range: Range, ambientC: number, shown: number): number {
  const { from, to } = correcting(t, range)!
  const value = Math.min(range.fullScale, Math.max(0, Math.min(to, Math.max(from, shown))))
  const seen = seenAtPart(t.described, {
    ...asked,
    shown: { kind: 'value', value, unit: rangeUnit(range) },
    seen: '',
    range: range.id,
    ambientC,
  })
  if (!seen.ok) return 0
  // the thermometer errs where the temperature is noted
  const own = seen.quantity.budget.filter((term) => !term.cause.endsWith('/thermometer'))
  return seen.quantity.value - value + t.draw.errors(unrounded(own, stepOf(t, range)))
}

/** The smallest step that is read on a range, in its unit. */
function stepOf({ described }: RealTester, range: Range): number {
  const { circuit } = range
  if (described.kind !== 'needle') return circuit.kind === 'stated' || circuit.kind === 'unknown' ? circuit.step : 0
  const divisions = scaleOf(described, range)?.divisions ?? 100
  return ((described.movement?.readable ?? 1) * range.fullScale) / divisions
}

/** Errors without the rounding to a step, which happens by itself: that of a calibration stands among its repeats. */
export const unrounded = (terms: readonly Term[], step: number): readonly Term[] =>
  terms.map((t) => (t.cause.endsWith('/scatter') ? { ...t, u: Math.sqrt(Math.max(0, t.u ** 2 - step ** 2 / 12)) } : t))
