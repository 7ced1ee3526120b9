import { shownFor } from './calibration.ts'
import { rangesFor } from './find-range.ts'
import { atTerminals, coilOhmAt } from './network.ts'
import type { Range, ReadingKind, Scale, Tester } from './tester.ts'

/** Where the needle or the display will stand. */
export interface NeedlePosition {
  /** Part of full scale: 0 at rest, 1 at full scale. */
  readonly fraction: number
  /** Divisions of the scale named; percent of full scale on a tester without scales. */
  readonly divisions: number
  /** Id of the printed scale; empty on a tester without scales. */
  readonly scale: string
  /** Beyond full scale. */
  readonly over: boolean
}

/** The printed scale a range is read on, or the one asked for; undefined on a tester without scales. */
export function scaleOf(tester: Tester, range: Range, id: string | undefined = range.scale): Scale | undefined {
  return id === undefined ? tester.scales[0] : tester.scales.find((s) => s.id === id)
}

/** Current or voltage at the part that brings a range to full deflection, as its network makes it. */
export function fullScaleAtPart(tester: Tester, range: Range, ambientC?: number): number {
  const m = tester.movement
  if (m === undefined) return range.fullScale
  return atTerminals(range.circuit, m.fullScaleA, coilOhmAt(m, ambientC ?? m.atC)) ?? range.fullScale
}

/**
 * Where the needle will stand on a range for a current (A) or voltage (V) at the part: the way forward, of which
 * `seenAtPart` is the way back. Networks are taken at their stated values, the coil at the ambient temperature; a range
 * that is calibrated shows what its newest correction says.
 *
 * @param ambientC ambient temperature in degC; where left out, the one at which the coil is stated
 * @example needle(tester, range, 12.5e-6).divisions // 6.25
 */
export function needle(tester: Tester, range: Range, value: number, ambientC?: number): NeedlePosition {
  const shown = shownFor(tester, range, value, ambientC)
  const fraction = shown === undefined ? value / fullScaleAtPart(tester, range, ambientC) : shown / range.fullScale
  // A hair over full scale is rounding, not an overshoot.
  const over = Math.abs(fraction) > 1 + 1e-9
  const scale = scaleOf(tester, range)
  return { fraction, divisions: fraction * (scale?.divisions ?? 100), scale: scale?.id ?? '', over }
}

/** The range on which a value shows best: the largest deflection that does not go over. Undefined where all do. */
export function bestRange(tester: Tester, reads: ReadingKind, value: number): Range | undefined {
  let best: { readonly range: Range; readonly fraction: number } | undefined
  for (const range of rangesFor(tester, reads)) {
    const { fraction, over } = needle(tester, range, value)
    if (!over && (best === undefined || Math.abs(fraction) > Math.abs(best.fraction))) best = { range, fraction }
  }
  return best?.range
}
