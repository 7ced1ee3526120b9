import type { Fault } from '#core/fault'
import { printPlain } from '#core/quantity'
import { findRange, rangesFor, rangeUnit, unitOf } from './find-range.ts'
import { scaleOf } from './needle.ts'
import type { Reading, ReadingState } from './reading.ts'
import type { Range, Scale, Tester } from './tester.ts'

/** A fault about one field of a reading; whoever knows row or step adds it. */
export const readingFault = (field: keyof Reading, value: string, problem: string, mend: string): Fault => ({
  code: 'bad-input',
  place: { field },
  value,
  problem,
  mend,
})

type Found<T> = ({ readonly ok: true; readonly notes: readonly string[] } & T) | Refused
export interface Refused {
  readonly ok: false
  readonly faults: readonly Fault[]
}
export const refused = (...faults: readonly Fault[]): Refused => ({ ok: false, faults })

/** The range a reading was taken on: the one it names, or the only one that fits. */
export function rangeOf(tester: Tester, r: Reading): Found<{ readonly range: Range }> {
  const offered = rangesFor(tester, r.reads)
  const unit = unitOf(r.reads)
  if (r.range === undefined) {
    if (offered.length === 1) return { ok: true, range: offered[0]!, notes: [] }
    if (offered.length === 0)
      return refused(
        readingFault('reads', r.reads, `is not among the tests of ${tester.name}`, 'Name the range it was read on.'),
      )
    const names = offered.map((o) => o.id).join(', ')
    return refused(
      readingFault('range', '', `is empty, and ${tester.name} reads ${r.reads} on several`, `Write one of: ${names}.`),
    )
  }
  const found = findRange(tester, r.range, offered)
  if (found.ok) return { ok: true, range: found.range, notes: [] }
  const fitting = tester.ranges.filter((o) => rangeUnit(o) === unit)
  const beside = findRange(tester, r.range)
  if (!beside.ok) return refused(...(offered.length > 0 ? found.faults : findFaults(tester, r.range, fitting)))
  if (rangeUnit(beside.range) !== unit) {
    const names = (offered.length > 0 ? offered : fitting).map((o) => o.id).join(', ')
    const what = beside.range.measures === 'current' ? 'a current range' : 'a voltage range'
    return refused(
      readingFault('range', r.range, `is ${what}, and ${r.reads} is read in ${unit}`, `Write one of: ${names}.`),
    )
  }
  const note = `The description of ${tester.name} does not offer the range ${beside.range.id} for ${r.reads}.`
  return { ok: true, range: beside.range, notes: [note] }
}

function findFaults(tester: Tester, text: string, among: readonly Range[]): readonly Fault[] {
  const found = findRange(tester, text, among)
  return found.ok ? [] : found.faults
}

/** What to do about a state where a number is needed. */
const stateMend: Readonly<Record<ReadingState, string>> = {
  over: 'Take a higher range and read again.',
  short: 'A shorted part has no parameters: note it under short, and take the part out.',
  open: 'Look at the leads and contacts; a part that is open has no parameters.',
  clear: 'Write the number that was shown; clear belongs to the short check.',
  'no null': 'Check collector current and span; a gain that cannot be nulled cannot be used.',
}

export const stateFault = (r: Reading, state: ReadingState): Fault =>
  readingFault('shown', state, `is a state, and ${r.reads} needs a number`, stateMend[state])

/** Where the needle stood, in divisions of a scale. */
export function deflectionOf(
  tester: Tester,
  range: Range,
  r: Reading,
): Found<{ readonly divisions: number; readonly scale: Scale }> {
  if (r.shown.kind === 'state') return refused(stateFault(r, r.shown.state))
  const scale = scaleOf(tester, range, r.scale ?? range.scale)
  if (scale === undefined) {
    const names = tester.scales.map((s) => s.id).join(', ')
    return refused(readingFault('scale', r.scale ?? '', `is not a scale of ${tester.name}`, `Write one of: ${names}.`))
  }
  if (r.shown.kind === 'value' && r.shown.unit !== rangeUnit(range)) return refused(wrongUnit(r, range))
  const divisions =
    r.shown.kind === 'deflection' ? r.shown.divisions : (r.shown.value / range.fullScale) * scale.divisions
  const fault = offScale(tester, range, r, divisions, scale)
  if (fault !== undefined) return refused(fault)
  const notes =
    r.shown.kind === 'value' ? [`${r.seen} was taken as ${plain(divisions)} of ${scale.divisions} divisions.`] : []
  return { ok: true, divisions, scale, notes }
}

export const plain = (x: number): string => String(Number(x.toPrecision(6)))

export const wrongUnit = (r: Reading, range: Range): Fault =>
  readingFault(
    'shown',
    r.seen,
    `is not in ${rangeUnit(range)}, as ${range.id} reads`,
    rangeUnit(range) === 'A' ? 'Write a current, such as 12.5 uA.' : 'Write a voltage, such as 0.65 V.',
  )

function offScale(tester: Tester, range: Range, r: Reading, divisions: number, scale: Scale): Fault | undefined {
  if (!Number.isFinite(divisions)) return readingFault('shown', r.seen, 'is not a number', 'Write what was shown.')
  if (divisions < 0 && tester.movement?.zero !== 'centre')
    return readingFault(
      'shown',
      r.seen,
      'is below zero',
      'A needle that goes the wrong way calls for the other polarity or lead order; read again.',
    )
  // A hair beyond the last mark is rounding of a value typed in units.
  if (Math.abs(divisions) <= scale.divisions * (1 + 1e-9)) return undefined
  const end = `is beyond the end of the scale (${scale.divisions} divisions, ${printPlain(range.fullScale, rangeUnit(range))})`
  return readingFault('shown', r.seen, end, higherRange(tester, range, r))
}

/** What to do when a range is too small. */
export function higherRange(tester: Tester, range: Range, r: Reading): string {
  const next = rangesFor(tester, r.reads)
    .filter((o) => o.measures === range.measures && o.fullScale > range.fullScale)
    .sort((a, b) => a.fullScale - b.fullScale)[0]
  return next === undefined
    ? 'Check the number; there is no higher range for this test.'
    : `Check the number, or read again on ${next.id}.`
}

/** The number a display showed, within the range. */
export function displayOf(
  tester: Tester,
  range: Range,
  r: Reading,
): Found<{ readonly value: number; readonly unit: 'A' | 'V' }> {
  const { shown } = r
  const unit = rangeUnit(range)
  const refuse = (problem: string, mend: string): Refused => refused(readingFault('shown', r.seen, problem, mend))
  if (shown.kind !== 'value') return refuse(`is not a number in ${unit}`, `Write the number ${tester.name} showed.`)
  if (shown.unit !== unit) return refused(wrongUnit(r, range))
  if (!Number.isFinite(shown.value)) return refuse('is not a number', 'Write what was shown.')
  if (shown.value < 0) return refuse('is below zero', 'Write it without the sign; the polarity of the part gives that.')
  if (shown.value > range.fullScale * (1 + 1e-9))
    return refuse(`is beyond the range ${range.id}`, higherRange(tester, range, r))
  return { ok: true, value: shown.value, unit, notes: [] }
}

/**
 * Holds a reading of a current or voltage against its tester without working out what it means: range, scale, unit, and
 * that it lies on the scale.
 */
export function shownFaults(tester: Tester, r: Reading): readonly Fault[] {
  const found = rangeOf(tester, r)
  if (!found.ok) return found.faults
  if (r.shown.kind === 'state') return []
  const at = tester.kind === 'needle' ? deflectionOf(tester, found.range, r) : displayOf(tester, found.range, r)
  return at.ok ? [] : at.faults
}
