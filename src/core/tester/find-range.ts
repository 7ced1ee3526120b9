import type { Fault } from '#core/fault'
import { parseValue } from '#core/quantity'
import { nearNames } from '#core/text'
import type { Range, ReadingKind, Tester } from './tester.ts'

export type RangeFound =
  | { readonly ok: true; readonly range: Range }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** The unit a reading is in: gain is a plain number, and a short check has none. */
export function unitOf(reads: ReadingKind): 'A' | 'V' | '1' | undefined {
  if (reads === 'short') return undefined
  if (reads === 'h_FE') return '1'
  return reads.startsWith('V_') ? 'V' : 'A'
}

/** The unit of what a range measures. */
export const rangeUnit = (range: Range): 'A' | 'V' => (range.measures === 'current' ? 'A' : 'V')

/** Ranges by tester and reading, found once: a file may hold a hundred thousand readings. */
const offered = new WeakMap<Tester, Map<ReadingKind, readonly Range[]>>()

/** Ranges the tester offers for a reading, in the order of its description. */
export function rangesFor(tester: Tester, reads: ReadingKind): readonly Range[] {
  const known = offered.get(tester) ?? new Map<ReadingKind, readonly Range[]>()
  offered.set(tester, known)
  const before = known.get(reads)
  if (before !== undefined) return before
  const names = new Set(tester.tests.filter((t) => t.reads === reads).flatMap((t) => t.ranges))
  const ranges = tester.ranges.filter((r) => names.has(r.id))
  known.set(reads, ranges)
  return ranges
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[\u00b5\u03bc]/g, 'u')
    .replaceAll(/[\s_-]+/g, '')

/**
 * Finds a range by what a person calls it: its name whatever the case and blanks, or its full-scale value (`0.1 mA` is
 * the range `100 uA`) where only one range has it.
 *
 * @param among ranges to choose from; all of the tester's where left out
 */
export function findRange(tester: Tester, text: string, among: readonly Range[] = tester.ranges): RangeFound {
  const exact = among.find((r) => r.id === text)
  if (exact !== undefined) return { ok: true, range: exact }
  const wanted = plain(text)
  const byName = among.filter((r) => plain(r.id) === wanted)
  if (byName.length === 1) return { ok: true, range: byName[0]! }
  const value = parseValue(text)
  if (value.ok && value.unit !== '1') {
    const unit = value.unit
    const byValue = among.filter((r) => rangeUnit(r) === unit && Math.abs(r.fullScale / value.value - 1) < 1e-9)
    if (byValue.length === 1) return { ok: true, range: byValue[0]! }
  }
  const names = among.map((r) => r.id)
  const mend = names.length === 0 ? 'It has none that fits.' : `Its ranges here: ${names.join(', ')}.`
  const near = nearNames(text, names)
  return { ok: false, faults: [{ code: 'not-found', what: `range on ${tester.name}`, name: text, near, mend }] }
}
