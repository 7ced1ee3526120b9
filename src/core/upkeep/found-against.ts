import { printPercent } from '#core/quantity'
import type { Against } from '#core/reduce'
import { type Calibration, calibrationAt, isOf, type Tester } from '#core/tester'
import {
  dialAsFound,
  foundState,
  isBeyond,
  type KeptFound,
  type RangeAsFound,
  rangesAsFound,
  readsAsFound,
} from './found-kept.ts'

/**
 * What parts as found say against readings on a tester, each at its time: where they put a range, or the gain dial,
 * beyond what the description allows. What was measured by then counts, unless a calibration followed it; so does what
 * was measured next, where no calibration lies between, since nobody knows since when it was so.
 *
 * @param tester in the version the readings are understood with
 * @param records what was measured of it, in any order
 * @param calibrations all that are known of it, those of later versions too
 */
export function foundAgainst(
  tester: Tester,
  records: readonly KeptFound[],
  calibrations: readonly Calibration[] = tester.calibrations ?? [],
): Against {
  const days = [...new Set(records.map((r) => r.day))].sort()
  const states = new Map<number, ReadonlyMap<string, RangeAsFound>>()
  /** By range, what was known when the first so many days had been measured. */
  const known = (count: number): ReadonlyMap<string, RangeAsFound> => {
    const before = states.get(count)
    if (before !== undefined) return before
    const made = count === 0 ? new Map<string, RangeAsFound>() : stateOn(tester, records, days[count - 1]!)
    states.set(count, made)
    return made
  }
  return (of, at) => {
    const day = at?.slice(0, 10)
    const count = day === undefined ? days.length : days.filter((d) => d <= day).length
    const key = of === 'gain' ? 'gain' : of.range
    const then = known(count).get(key)
    if (then !== undefined && isBeyond(then) && !isSettled(tester, of, then.day, at)) return `${saidOf(then)} ${mend}`
    for (let i = count; day !== undefined && i < days.length; i++) {
      const next = known(i + 1).get(key)
      if (next === undefined || next.day !== days[i]) continue
      const isOld = calibrations.some((c) => covers(c, of) && c.date > day && c.date <= next.day)
      return isBeyond(next) && !isOld ? `${saidOf(next)} ${late}` : undefined
    }
    return undefined
  }
}

function stateOn(tester: Tester, records: readonly KeptFound[], day: string): ReadonlyMap<string, RangeAsFound> {
  const state = foundState(tester, records, day)
  const dial = dialAsFound(tester, state)
  return new Map([...rangesAsFound(tester, state), ...(dial === undefined ? [] : [dial])].map((r) => [r.range, r]))
}

type Of = Parameters<Against>[0]

/** Whether a calibration in force at the time was made after what was found. */
function isSettled(tester: Tester, of: Of, foundOn: string, at: string | undefined): boolean {
  if (of !== 'gain') {
    const { head } = calibrationAt(tester, { id: of.range, unit: 'A' }, at) ?? {}
    return head !== undefined && head.date >= foundOn
  }
  const spans = tester.gain.kind === 'dial' ? tester.gain.spans : []
  return spans.some((s) => (calibrationAt(tester, { id: s.id, unit: '1' }, at)?.head.date ?? '') >= foundOn)
}

const covers = (c: Calibration, of: Of): boolean =>
  c.ranges.some((r) => (of === 'gain' ? r.unit === '1' : isOf(r, { id: of.range, unit: 'A' })))

function saidOf(r: RangeAsFound): string {
  const what = r.range === 'gain' ? 'the gain dial' : r.range
  return `As found on ${r.day} the tester's parts make ${what} read ${readsAsFound(r)}, and its description allows ${printPercent(r.limit)}.`
}

const mend = 'Take it for a rough value, and read it again on another range or once that is mended.'
const late = 'That was measured after this reading, and nobody knows since when it was so: take it for a rough value.'
