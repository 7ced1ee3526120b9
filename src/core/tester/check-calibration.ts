import type { Fault } from '#core/fault'
import type { Say } from './check-tester.ts'
import type { RangeCalibration, Tester } from './tester.ts'

/** Calibrations of ranges that are not there, and curves that do not rise. */
export const calibrationFaults = (t: Tester, say: Say): readonly Fault[] =>
  (t.calibrations ?? []).flatMap((c, i) =>
    c.ranges.flatMap((r, j) => {
      const path = ['calibrations', i, 'ranges', j]
      const known = t.ranges.find((one) => one.id === r.range)
      const isOver = known !== undefined && r.to > 1.2 * known.fullScale
      return [
        ...(isOver ? [say([...path, 'to'], `is beyond ${r.range}`, 'Check the unit.')] : []),
        ...(known !== undefined
          ? []
          : [say([...path, 'range'], 'is no range of this tester', 'Write its id as under ranges.')]),
        ...(r.to > r.from ? [] : [say([...path, 'to'], 'is not above from', 'Give the most that was shown.')]),
        ...curveFaults(r, [...path, 'law'], say),
      ]
    }),
  )

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
