import { needle, type Range, type ReadingKind, rangesFor, type Tester } from '#core/tester'
import type { Expected } from './expected.ts'
import type { Feed } from './feed.ts'
import { say } from './say.ts'
import type { Step, Window } from './sheet.ts'

/** Ranges on which a test can be read, finest first. */
export function rangesOf(tester: Tester, reads: ReadingKind): readonly Range[] {
  return [...rangesFor(tester, reads)].sort((a, b) => a.fullScale - b.fullScale)
}

/** Ranges a feed's test is read on, finest first. */
export const rangesOn = (tester: Tester, feed: Feed): readonly Range[] =>
  tester.ranges.filter((r) => feed.ranges.includes(r.id)).sort((a, b) => a.fullScale - b.fullScale)

/** The finest range that still holds a value, so that the needle stands high; the coarsest where none does. */
export const rangeFor = (tester: Tester, ranges: readonly Range[], value: number): Range | undefined =>
  ranges.find((r) => !needle(tester, r, value).over) ?? ranges.at(-1)

const unitOf = (range: Range): 'A' | 'V' => (range.measures === 'current' ? 'A' : 'V')

/** Values left out where they are not known. */
const known = (e: Expected): { readonly min?: number; readonly typ?: number; readonly max?: number } => ({
  ...(e.min === undefined ? {} : { min: e.min }),
  ...(e.typ === undefined ? {} : { typ: e.typ }),
  ...(e.max === undefined ? {} : { max: e.max }),
})

const round = (x: number): number => Number(x.toPrecision(3))

/**
 * Where the needle will stand for a part as expected. A value beyond full scale is left out of the divisions: the window
 * is then open at that end.
 */
export function windowOn(tester: Tester, range: Range, e: Expected, ambientC?: number): Window {
  const unit = unitOf(range)
  const value = { ...known(e), unit }
  if (tester.scales.length === 0 || tester.movement === undefined) return { unit, ...known(e), value, from: e.from }
  const at = (x: number | undefined): number | undefined => {
    if (x === undefined) return undefined
    const n = needle(tester, range, x, ambientC)
    return n.over ? undefined : round(n.divisions)
  }
  const divisions = known({ min: at(e.min), typ: at(e.typ), max: at(e.max), from: '' } as Expected)
  return { unit: 'div', scale: needle(tester, range, 0).scale, ...divisions, value, from: e.from }
}

/** A window on a gain dial or display: plain numbers. */
export const windowOfNumber = (e: Expected): Window => ({
  unit: '1',
  ...known(e),
  value: { ...known(e), unit: '1' },
  from: e.from,
})

/** The step that turns to a range. */
export const setRange = (id: string, range: Range, why: string, lead = 'Turn to'): Step => ({
  kind: 'set',
  id,
  what: 'range',
  value: range.id,
  say: `${lead} the ${say(range.fullScale, unitOf(range))} range (${range.id}).`,
  why,
})
