import type { Range } from '#core/tester'
import { advise } from './advice.ts'
import type { Bench } from './bench.ts'
import { timed } from './ceiling.ts'
import { type Expected, expected } from './expected.ts'
import { rangeFor, setRange, windowOn } from './face.ts'
import { type Feed, fedBy, setFeed } from './feed.ts'
import {
  baseStop,
  conditionsOf,
  type PointReading,
  type ReadStep,
  readCollector,
  setCollector,
  visit,
} from './gain-step.ts'
import type { Group } from './group.ts'
import { baseRanges, type OperatingPoint, rangeOfCurrent, timeAt } from './operating-point.ts'
import { rules } from './rule.ts'
import type { Step } from './sheet.ts'

/** Base currents of a part at its smallest, typical and largest gain. */
function baseExpected(b: Bench, p: OperatingPoint): Expected {
  const gain = expected(b, 'h_FE', conditionsOf(p))
  const of = (h: number | undefined): number | undefined => (h === undefined || h <= 0 ? undefined : p.collectorA / h)
  const [min, typ, max] = [of(gain.max), of(gain.typ), of(gain.min)]
  return {
    ...(min === undefined ? {} : { min }),
    ...(typ === undefined ? {} : { typ }),
    ...(max === undefined ? {} : { max }),
    from: `I_C over h_FE: ${gain.from}`,
  }
}

/** The range for the base current, of those that may be turned to from the collector range. */
export const baseRange = (b: Bench, feed: Feed, collector: Range, e: Expected): Range | undefined =>
  rangeFor(b.tester, baseRanges(b, feed, collector), e.max ?? e.typ ?? 0)

function readBase(b: Bench, p: OperatingPoint, point: number, range: Range, e: Expected): ReadStep {
  return {
    kind: 'read',
    id: `i-b-${point}`,
    reads: 'I_B',
    point,
    range: range.id,
    ...(range.scale === undefined ? {} : { scale: range.scale }),
    ...fedBy(p.feed),
    currentA: baseStop(b, p),
    conditions: conditionsOf(p),
    window: windowOn(b.tester, range, e),
    ...timed(timeAt(b, p)),
    say: 'Read the base current.',
    why: 'Gain is the ratio of the two currents. The base range is at most one below the collector range where one movement reads both.',
    odd: advise('nearZero', 'noCurrent', 'wrongWay', 'drifting', 'pegged'),
  }
}

/** The base current at a point, with what to turn for it. */
function baseReading(b: Bench, p: OperatingPoint, point: number, collector: Range, isFree: boolean): PointReading[] {
  const e = baseExpected(b, p)
  const base = baseRange(b, p.feed, collector, e)
  if (base === undefined) return []
  const why = 'At most one range below that of the collector current, where one movement reads both.'
  const turn = setRange(`i-b-${point}-range`, base, why, 'Turn the meter to base current, on')
  const again = base.id === collector.id || !isFree ? [] : [setCollector(b, `i-b-${point}-again`, p, true)]
  return [{ turn: [turn, ...again], read: readBase(b, p, point, base, e) }]
}

/** Collector and base current at a point. */
export function ratioReadings(b: Bench, p: OperatingPoint, point: number): readonly PointReading[] {
  const range = rangeOfCurrent(b, p.feed, p.collectorA)
  if (range === undefined) return []
  return [{ turn: [], read: readCollector(b, p, point, range) }, ...baseReading(b, p, point, range, true)]
}

/** Both currents at another collector voltage with the base control untouched. */
export function otherVoltageGroups(
  b: Bench,
  first: OperatingPoint,
  other: OperatingPoint,
  point: number,
): readonly Group[] {
  const range = rangeOfCurrent(b, first.feed, first.collectorA)!
  const isHigher = other.feed.supplyV > first.feed.supplyV
  const e: Expected = {
    min: first.collectorA * (isHigher ? 1 : 1 / rules.earlyShare),
    max: first.collectorA * (isHigher ? rules.earlyShare : 1),
    from: 'somewhat off the current before (common practice)',
  }
  const conditions = { I_C: first.collectorA, V_CE: other.collectorV }
  const why = 'How little it moves with the collector voltage gives output conductance and Early voltage.'
  const say = 'Read the collector current again without touching the base control.'
  const read = { ...readCollector(b, other, point, range), conditions, window: windowOn(b.tester, range, e), say, why }
  const untouched = 'Leave the base control as it stands: only the collector voltage changes.'
  const turn: readonly Step[] = [...setFeed(`point-${point}-other`, other.feed, untouched)]
  const base = baseReading(b, { ...other, collectorA: first.collectorA }, point, range, false)
  return base.length === 0 ? [] : visit(b, first, point, [{ turn, read }, ...base])
}
