import { printPercent } from '#core/quantity'
import type { Tester } from '#core/tester'
import { dialShows } from './dial-part.ts'
import { asFound, foundDefaults } from './found.ts'
import type { FoundValue } from './found-table.ts'
import { testerParts } from './tester-parts.ts'

/** One part of a tester as it was measured, by its name, as a book keeps it; SI units. */
export interface KeptValue {
  readonly part: string
  readonly value: number
  readonly u: number
}

/** Parts of a tester measured on a day. */
export interface KeptFound {
  /** ISO. */
  readonly day: string
  readonly parts: readonly KeptValue[]
}

/** What is known of the parts of a tester from all that was measured up to a day. */
export interface FoundState {
  /** The newest value of each part, with the day it was measured. */
  readonly values: readonly (FoundValue & { readonly day: string })[]
  /** Names that are no part of the tester as it is described now. */
  readonly unknown: readonly string[]
}

/** Values as a book keeps them. */
export const keptValues = (values: readonly FoundValue[]): readonly KeptValue[] =>
  values.map(({ part, value, u }) => ({ part: part.id, value, u }))

/**
 * The newest value of each part: one measured again after a mend takes the place of what it was before, and the others
 * stay as they were found.
 *
 * @param on ISO date; what was measured later is not looked at
 */
export function foundState(tester: Tester, records: readonly KeptFound[], on?: string): FoundState {
  const parts = new Map(testerParts(tester).map((p) => [p.id, p]))
  const newest = new Map<string, KeptValue & { readonly day: string }>()
  for (const { day, parts: measured } of records) {
    if (on !== undefined && day > on) continue
    for (const m of measured) {
      const known = newest.get(m.part)
      if (known === undefined || known.day < day) newest.set(m.part, { ...m, day })
    }
  }
  const all = [...newest.values()]
  return {
    values: all.flatMap(({ part, ...m }) => (parts.has(part) ? [{ ...m, part: parts.get(part)! }] : [])),
    unknown: all.filter((m) => !parts.has(m.part)).map((m) => m.part),
  }
}

/** What its parts as found make of a range at full scale, or of the gain dial. */
export interface RangeAsFound {
  /** Id of the range; `gain` for the dial, as a part of what it shows. */
  readonly range: string
  /** Day on which the newest of the parts that move it was measured. */
  readonly day: string
  /** What it shows too much, as a part of full scale, and the half-width of the 95 % interval. */
  readonly error: number
  readonly expanded: number
  /** What the description allows it. */
  readonly limit: number
}

/** Whether parts as found put a range, or the dial, surely beyond what its description allows. */
export const isBeyond = ({ error, expanded, limit }: RangeAsFound): boolean => Math.abs(error) - expanded > limit

/** What its parts make a range read, in words. */
export const readsAsFound = ({ range, error }: RangeAsFound): string =>
  `${printPercent(Math.abs(error))} ${error < 0 ? 'low' : 'high'}${range === 'gain' ? '' : ' at full scale'}`

/**
 * What the resistors of the gain dial make it show too much, where any of them was measured: the other counts with its
 * tolerance.
 */
export function dialAsFound(tester: Tester, { values }: FoundState): RangeAsFound | undefined {
  const { gain } = tester
  const own = values.filter((v) => v.part.kind === 'dial')
  if (gain.kind !== 'dial' || gain.bridge === undefined || own.length === 0) return undefined
  const now = own.reduce((t, { part, value }) => part.change(t, value), tester)
  const shows = dialShows(tester, now)
  const parts = testerParts(tester).filter((p) => p.kind === 'dial')
  const relative = parts.map((p) => {
    const known = own.find((v) => v.part.id === p.id)
    return known === undefined ? gain.bridge!.tolerance / Math.sqrt(3) : known.u / known.value
  })
  return {
    range: 'gain',
    day: own
      .map((v) => v.day)
      .sort()
      .at(-1)!,
    error: shows - 1,
    expanded: 2 * shows * Math.hypot(...relative),
    limit: gain.tolerance,
  }
}

/** Ranges whose parts were measured, with what that makes of them; ranges none of whose parts were are left out. */
export function rangesAsFound(tester: Tester, { values }: FoundState): readonly RangeAsFound[] {
  if (values.length === 0) return []
  const found = asFound(tester, values, foundDefaults)
  const described = asFound(tester, [], foundDefaults)
  return found.ranges.flatMap(({ range, before: { error, expanded } }, i) => {
    const days = found.parts.flatMap((p, k) => (p.effects.some((e) => e.range === range.id) ? [values[k]!.day] : []))
    const day = days.sort().at(-1)
    return day === undefined
      ? []
      : [{ range: range.id, day, error, expanded, limit: described.ranges[i]!.before.expanded }]
  })
}
