import type { FoundValue } from './found-table.ts'
import type { TesterFault } from './tester-faults.ts'

/** No measured part speaks against a fault by more than this: a part may have been taken for another (common practice). */
const blunder = 1e-4

/** Values nearer than this, as a part of them, are not told apart: sizes of faults are tried in steps (see `playbook`). */
const step = 0.03

/** A contact or a lead below this, ohm, is not told from another. */
const floorOhm = 1e-3

const bell = (z: number): number => Math.exp(-0.5 * z ** 2)

const sigmaAt = (value: number, u: number): number => Math.hypot(u, step * value, floorOhm / 2)

/**
 * How much better a fault of a size explains what was measured of its part than a sound part would: below 1 where the
 * part was found good, far above where it was found to have just this value. 1 for faults of parts nobody measured.
 */
export function foundOdds(fault: TesterFault, size: number, found: readonly FoundValue[]): number {
  const { of } = fault
  const measured = of === undefined ? undefined : found.find((f) => f.part.id === of.part)
  if (of === undefined || measured === undefined) return 1
  const { value, u, part } = measured
  const there = of.value(size)
  const withFault = bell((value - there) / sigmaAt(Math.min(value, there), u))
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = part.allowed
  // a sound part lies within what is allowed; one a little outside has not failed yet
  const outside = Math.max(0, min - value, value - max)
  const sound = bell(outside / sigmaAt(value, u))
  return Math.max(blunder, withFault) / Math.max(blunder, sound)
}
