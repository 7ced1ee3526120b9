import type { Fault } from '#core/fault'
import { isOf } from './calibration.ts'
import type { Say } from './check-tester.ts'
import { readoutsOf } from './readout.ts'
import type { RangeCalibration, Tester } from './tester.ts'

/** Calibrations of ranges that are not there, and curves that do not rise. */
export const calibrationFaults = (t: Tester, say: Say): readonly Fault[] =>
  (t.calibrations ?? []).flatMap((c, i) =>
    c.ranges.flatMap((r, j) => {
      const path = ['calibrations', i, 'ranges', j]
      const known = readoutsOf(t).find((one) => isOf(r, one))
      const isOver = known !== undefined && r.to > 1.2 * known.fullScale
      return [
        ...(isOver ? [say([...path, 'to'], `is beyond ${r.range}`, 'Check the unit.')] : []),
        ...(known !== undefined ? [] : [say([...path, 'range'], ...unknown(r))]),
        ...(r.to > r.from ? [] : [say([...path, 'to'], 'is not above from', 'Give the most that was shown.')]),
        ...curveFaults(r, [...path, 'law'], say),
      ]
    }),
  )

const unknown = ({ unit }: RangeCalibration): readonly [string, string] =>
  unit === '1'
    ? ['is no span of the gain dial', 'Write its id as under gain spans; values of a range have their unit with them.']
    : ['is no range of this tester', 'Write its id as under ranges; gains of a span of the dial have no unit.']

function curveFaults({ law }: RangeCalibration, path: readonly (string | number)[], say: Say): readonly Fault[] {
  if (law.kind === 'line') return []
  const count = law.shown.length
  const isEven = law.correction.length === count && law.u.length === count
  const rises = law.shown.every((s, i) => i === 0 || s > law.shown[i - 1]!)
  return [
    ...(isEven ? [] : [say(path, 'has lists of different lengths', 'Give a correction and a u for each reading.')]),
    ...(rises ? [] : [say([...path, 'shown'], 'does not rise', 'Put the readings in order, each once.')]),
  ]
}
