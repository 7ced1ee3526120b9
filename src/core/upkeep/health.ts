import { dateOf, dayOf } from '#core/numeric'
import { printMeasured, printPercent } from '#core/quantity'
import {
  calibrationAt,
  correctionAt,
  isOf,
  isOverdue,
  type Readout,
  readoutName,
  readoutsOf,
  type Tester,
} from '#core/tester'
import type { Steadiness } from './check-standard.ts'
import { daysPerYear, driftOf } from './drift.ts'
import { dialAsFound, type FoundState, isBeyond, type RangeAsFound, rangesAsFound, readsAsFound } from './found-kept.ts'

/** What a range, or a tester, is worth now. `as described`: nobody has held it against anything. */
export type HealthWord = 'trusted' | 'with corrections' | 'as described' | 'not trusted'

/** Worst last: a tester is as good as the worst of its ranges that were looked at. */
const order: readonly HealthWord[] = ['trusted', 'with corrections', 'as described', 'not trusted']

export interface RangeHealth {
  /** The range, by its id; of the gain dial `h_FE span` with that of the span. */
  readonly range: string
  readonly word: HealthWord
  readonly why: string
  /** Day of its calibration. */
  readonly calibrated?: string
  readonly due?: string
  /** What its parts as found make of it, where they were measured since its calibration. */
  readonly found?: RangeAsFound
}

/** What a check standard says of the tester; `too few` readings say nothing yet. */
export interface StandardHealth {
  readonly part: string
  readonly word: Steadiness['word'] | 'too few'
  readonly say: string
}

/** What is known of a tester beside its description. */
export interface HealthEvidence {
  /** Check standards read on it. */
  readonly standards?: readonly StandardHealth[]
  /** Its parts as they were measured. */
  readonly found?: FoundState
}

/** The state of a tester on a day. */
export interface Health {
  readonly tester: string
  readonly name: string
  readonly on: string
  readonly word: HealthWord
  readonly say: string
  readonly ranges: readonly RangeHealth[]
  /** First day on which something wants doing; left out where nothing is planned. */
  readonly nextDue?: string
  readonly standards: readonly StandardHealth[]
}

/**
 * What a tester is worth: each range by the calibration in force, or by its parts where they were measured since; and all
 * of it by its check standards.
 *
 * @param on ISO date
 */
export function healthOf(tester: Tester, on: string, { standards = [], found: parts }: HealthEvidence = {}): Health {
  const isOut = standards.some((s) => s.word === 'out of control')
  const asFound = parts === undefined ? [] : rangesAsFound(tester, parts)
  const dial = parts === undefined ? undefined : dialAsFound(tester, parts)
  const ranges = lookedAt(tester, dial !== undefined).map((r) => {
    const own = r.unit === '1' ? dial : asFound.find((f) => f.range === r.id)
    const found = withParts(rangeHealth(tester, r, on), own)
    return isOut && found.word !== 'not trusted'
      ? { ...found, word: 'not trusted' as const, why: `A check standard is out of control. ${found.why}` }
      : found
  })
  const words = ranges.map((r) => r.word)
  const word = order.filter((w) => words.includes(w)).at(-1) ?? 'as described'
  const dues = ranges.flatMap((r) => (r.due === undefined ? [] : [r.due])).sort()
  return {
    tester: tester.id,
    name: tester.name,
    on,
    word,
    say: sentence(tester, ranges, dues[0], on),
    ranges,
    ...(dues[0] === undefined ? {} : { nextDue: dues[0] }),
    standards,
  }
}

/** Ranges, and the spans of a gain dial where anybody calibrated one or measured its resistors. */
function lookedAt(tester: Tester, isDialFound: boolean): readonly Readout[] {
  const isCalibrated = tester.calibrations?.some((c) => c.ranges.some((r) => r.unit === '1')) ?? false
  return readoutsOf(tester).filter((r) => r.unit !== '1' || isCalibrated || isDialFound)
}

function rangeHealth(tester: Tester, of: Readout, on: string): RangeHealth {
  const range = readoutName(of)
  const found = calibrationAt(tester, of, on)
  if (found === undefined)
    return { range, word: 'as described', why: 'Never calibrated: its description is all there is.' }
  const { head, range: c } = found
  const dated = { calibrated: head.date, ...(head.due === undefined ? {} : { due: head.due }) }
  if (c.trust !== 'not trusted' && isOverdue(head, on))
    return { range, word: 'not trusted', why: `Due again since ${head.due}. ${c.why}`, ...dated }
  const moves = wander(tester, of)
  return { range, word: c.trust, why: moves === undefined ? c.why : `${c.why} ${moves}`, ...dated }
}

/** Parts that were measured since the calibration tell more than it; those from before it were trimmed or left by it. */
function withParts(r: RangeHealth, found: RangeAsFound | undefined): RangeHealth {
  if (found === undefined || (r.calibrated !== undefined && found.day <= r.calibrated)) return r
  const { limit, day } = found
  const reads = readsAsFound(found)
  if (isBeyond(found))
    return {
      ...r,
      word: 'not trusted',
      why: `As found on ${day} its parts make it read ${reads}, and the description allows ${printPercent(limit)}. Mend it, and measure or calibrate it again. ${r.why}`,
      found,
    }
  return { ...r, why: `${r.why} As found on ${day} its parts make it read ${reads}.`, found }
}

/** How the correction at full scale has moved from calibration to calibration, where there are three or more. */
function wander(tester: Tester, of: Readout): string | undefined {
  const values = (tester.calibrations ?? []).flatMap((c) => {
    const own = c.ranges.find((r) => isOf(r, of))
    return own === undefined ? [] : [{ at: c.date, value: correctionAt(own, of.fullScale).value }]
  })
  const days = new Set(values.map((v) => v.at))
  if (days.size < 3) return undefined
  const { perYear, isSeen } = driftOf(values)
  const rate = `${printMeasured(perYear.value, perYear.u, of.unit)} a year`
  return isSeen ? `Its correction moves by ${rate}.` : `Its correction holds from calibration to calibration (${rate}).`
}

/** So many days ahead, what is due is said. */
const ahead = 60

function sentence(tester: Tester, ranges: readonly RangeHealth[], due: string | undefined, on: string): string {
  const of = (word: HealthWord): readonly string[] => ranges.filter((r) => r.word === word).map((r) => r.range)
  const said = order.flatMap((word) => {
    const names = of(word)
    if (names.length === 0) return []
    const which = names.length === ranges.length ? 'all its ranges' : names.join(', ')
    return [`${words[word]} ${which}`]
  })
  const soon = due !== undefined && dayOf(due) - dayOf(on) <= ahead
  const next =
    due === undefined ? '' : soon && dayOf(due) < dayOf(on) ? ` Overdue since ${due}.` : ` Next due on ${due}.`
  return `${tester.name}: ${said.join('; ')}.${next}`
}

const words: Readonly<Record<HealthWord, string>> = {
  trusted: 'trusted on',
  'with corrections': 'trusted with corrections on',
  'as described': 'never calibrated on',
  'not trusted': 'not for',
}

/** A year from a day, when a calibration is usually due again (common practice). */
export const yearAfter = (date: string): string => dateOf(dayOf(date) + Math.floor(daysPerYear))
