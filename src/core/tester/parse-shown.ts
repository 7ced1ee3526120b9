import type { Fault } from '#core/fault'
import { type ParseOptions, parseValue, printPlain, printValue } from '#core/quantity'
import { nearNames } from '#core/text'
import { unitOf } from './find-range.ts'
import { gainSeen } from './gain-seen.ts'
import { type Reading, type ReadingState, readingStates, type Shown } from './reading.ts'
import { type Seen, seenAtPart } from './seen-at-part.ts'
import { plain, readingFault, shownFaults } from './shown.ts'
import type { ReadingKind, Tester } from './tester.ts'

export type ShownRead =
  | { readonly ok: true; readonly shown: Shown }
  | { readonly ok: false; readonly problem: string; readonly mend: string }

export interface ShownOptions {
  /** Unit that stands over a column of cells, `uA`; a cell's own unit goes before it. */
  readonly unit?: string
  readonly decimal?: NonNullable<ParseOptions['decimal']>
}

const tight = (text: string): string => text.toLowerCase().replaceAll(/[\s._-]+/g, '')

/** Other words for a state. `ol` is what a digital meter shows beyond its range. */
const alsoCalled: Readonly<Record<string, ReadingState>> = {
  ol: 'over',
  overload: 'over',
  overrange: 'over',
  offscale: 'over',
  shorted: 'short',
  noshort: 'clear',
  ok: 'clear',
}

const states: ReadonlyMap<string, ReadingState> = new Map([
  ...readingStates.map((s) => [tight(s), s] as const),
  ...Object.entries(alsoCalled),
])

const isBareNumber = (text: string): boolean => /^[+-]?[\d.,]+(?:[eE][+-]?\d+)?$/.test(text)
const isZero = (text: string): boolean => /^[+-]?[0.,]+$/.test(text) && text.includes('0')

/** What to write for a reading in a unit. */
const examples = { A: '7.3 div or 12.5 uA', V: '7.3 div or 0.65 V', '1': '118' } as const

/**
 * What was shown, from how it was typed: `7.3 div`, `12.5 uA`, `118`, or a state: `clear`, `short`, `open`, `over`,
 * `no null`. A bare number is a gain; for a current or voltage it needs its unit, since divisions and units look alike.
 */
export function readShown(text: string, reads: ReadingKind, options: ShownOptions = {}): ShownRead {
  const typed = text.trim()
  const refuse = (problem: string, mend: string): ShownRead => ({ ok: false, problem, mend })
  if (typed === '') return refuse('is empty', `Write what was shown: ${exampleOf(reads)}.`)
  const state = states.get(tight(typed))
  if (state !== undefined) return ofState(state, reads)
  const unit = unitOf(reads)
  if (unit === undefined) {
    const near = nearNames(typed, readingStates, 1)
    return refuse(
      'is not the outcome of a short check',
      `Write clear, short or open.${near.length > 0 ? ` Did you mean ${near[0]}?` : ''}`,
    )
  }
  const isBare = isBareNumber(typed)
  if (isBare && options.unit === undefined && unit !== '1' && !isZero(typed))
    return refuse('has no unit', `Write it with its unit: ${typed} div, or as in ${examples[unit]}.`)
  const decimal = options.decimal === undefined ? {} : { decimal: options.decimal }
  const withUnit = isBare && options.unit !== undefined ? `${typed} ${options.unit}` : typed
  const parsed = parseValue(withUnit, isBare && options.unit === undefined ? { ...decimal, unit } : decimal)
  if (!parsed.ok) return refuse(parsed.problem, unit === '1' ? 'Write the plain number, such as 118.' : parsed.mend)
  if (parsed.unit === 'div' && unit !== '1') return { ok: true, shown: { kind: 'deflection', divisions: parsed.value } }
  if (parsed.unit !== unit)
    return refuse(`is not in ${unitName[unit]}, as ${reads} is`, `Write it as in ${examples[unit]}.`)
  return { ok: true, shown: { kind: 'value', value: parsed.value, unit } }
}

const unitName = { A: 'amperes', V: 'volts', '1': 'plain numbers' } as const

const exampleOf = (reads: ReadingKind): string => {
  const unit = unitOf(reads)
  return unit === undefined ? 'clear, short or open' : examples[unit]
}

function ofState(state: ReadingState, reads: ReadingKind): ShownRead {
  const isCheck = reads === 'short'
  if (isCheck && (state === 'over' || state === 'no null'))
    return { ok: false, problem: 'is not the outcome of a short check', mend: 'Write clear, short or open.' }
  if (!isCheck && state === 'clear')
    return {
      ok: false,
      problem: `is the outcome of a short check, not of ${reads}`,
      mend: `Write what was shown: ${exampleOf(reads)}.`,
    }
  if (state === 'no null' && reads !== 'h_FE')
    return {
      ok: false,
      problem: `belongs to a gain dial, not to ${reads}`,
      mend: `Write what was shown: ${exampleOf(reads)}.`,
    }
  return { ok: true, shown: { kind: 'state', state } }
}

export type ShownParsed =
  | {
      readonly ok: true
      readonly shown: Shown
      readonly seen: string
      /** What was understood, to show back: `7.3 div of 50 on 100 uA = 14.6 uA`. */
      readonly echo: string
    }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * What a person typed for one step, with a line that says how it was understood. With a tester the reading is checked
 * against its range and scale as well.
 */
export function parseShown(text: string, reads: ReadingKind, tester?: Tester, range?: string): ShownParsed {
  const read = readShown(text, reads)
  if (!read.ok) return { ok: false, faults: [readingFault('shown', text.trim(), read.problem, read.mend)] }
  const { shown } = read
  const seen = text.trim()
  if (shown.kind === 'state' || tester === undefined) return { ok: true, shown, seen, echo: plainEcho(shown, reads) }
  const reading: Reading = { part: '', reads, shown, seen, point: 1, ...(range === undefined ? {} : { range }) }
  const meant = seenAtPart(tester, reading)
  if (!meant.ok) return meant
  return { ok: true, shown, seen, echo: meantEcho(shown, reads, meant) }
}

/** How a number was understood: divisions with their scale and range, and what they come to. */
function meantEcho(shown: Shown, reads: ReadingKind, meant: Extract<Seen, { ok: true }>): string {
  const value = printValue(meant.quantity.value, meant.quantity.unit, { digits: 3 })
  if (meant.range === undefined) return `${reads} ${value}`
  if (shown.kind !== 'deflection') return `${reads} ${value} on ${meant.range.id}`
  const of = meant.scale === undefined ? '' : ` of ${meant.scale.divisions}`
  return `${plain(shown.divisions)} div${of} on ${meant.range.id} = ${value}`
}

function plainEcho(shown: Shown, reads: ReadingKind): string {
  switch (shown.kind) {
    case 'state':
      return `${reads}: ${shown.state}`
    case 'deflection':
      return `${plain(shown.divisions)} divisions`
    case 'value':
      return `${reads} ${printPlain(shown.value, shown.unit)}`
  }
}

/** Holds a reading against a tester: range, scale, unit, and that it lies on the scale. */
export function readingFaults(tester: Tester, r: Reading): readonly Fault[] {
  const isState = r.shown.kind === 'state'
  if (r.reads === 'h_FE') {
    const meant = isState ? undefined : gainSeen(tester, r)
    return meant === undefined || meant.ok ? [] : meant.faults
  }
  if (r.reads === 'short' || (isState && r.range === undefined)) return []
  return shownFaults(tester, r)
}
