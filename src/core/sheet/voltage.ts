import type { Conditions } from '#core/device'
import type { Range } from '#core/tester'
import { advise } from './advice.ts'
import type { Bench } from './bench.ts'
import { heated, type OnTime, onTime, timed } from './ceiling.ts'
import { expected, nearestLimit } from './expected.ts'
import { rangeFor, rangesOf, rangesOn, setRange, windowOn } from './face.ts'
import { type Feed, fedBy, feedsOf, offersOf, setFeed, shortA } from './feed.ts'
import { biasZero, conditionsOf, type PointReading, type ReadStep, setCollector } from './gain-step.ts'
import { gapPiece, nothing, type Piece } from './group.ts'
import { type OperatingPoint, timeAt } from './operating-point.ts'
import { say, settable } from './say.ts'
import type { Step } from './sheet.ts'

/** Base-emitter voltage at the point where gain is read; none where the tester does not offer it. */
export function baseVoltageReading(b: Bench, p: OperatingPoint, point: number): readonly PointReading[] {
  const at = conditionsOf(p)
  const e = expected(b, 'V_BE', at)
  const range = rangeFor(b.tester, rangesOf(b.tester, 'V_BE'), e.max ?? e.typ ?? 1)
  if (range === undefined) return []
  const id = `v-be-${point}`
  const why = 'The finest range that holds the voltage expected.'
  const turn = [
    setRange(`${id}-range`, range, why, 'Turn the meter to base voltage, on'),
    setCollector(b, `${id}-again`, p, true),
  ]
  const read: ReadStep = {
    kind: 'read',
    id,
    reads: 'V_BE',
    point,
    range: range.id,
    ...(range.scale === undefined ? {} : { scale: range.scale }),
    ...fedBy(p.feed),
    currentA: p.collectorA,
    conditions: at,
    window: windowOn(b.tester, range, e),
    ...timed(timeAt(b, p)),
    say: 'Read the base-emitter voltage.',
    why: 'It tells germanium from silicon, and with the second point gives input resistance and transconductance.',
    odd: advise('wrongMaterial', 'drifting', 'wrongWay'),
  }
  return [{ turn, read }]
}

/**
 * Base-emitter voltage on a tester that sets its own point: allowed where its worst current lies within the ratings.
 *
 * @param ownA collector current it works at, where that is known
 */
export function ownBaseVoltagePiece(b: Bench, ownA: number | undefined): Piece {
  const feed = feedsOf(b.tester, 'V_BE')[0]
  const at: Conditions = ownA === undefined ? {} : { I_C: ownA }
  const e = expected(b, 'V_BE', at)
  const range = feed === undefined ? undefined : rangeFor(b.tester, rangesOn(b.tester, feed), e.max ?? e.typ ?? 1)
  if (feed === undefined || range === undefined) return nothing
  const worstA = shortA(feed)
  const time = onTime(b.ceiling, feed.supplyV * worstA, worstA)
  if (!time.isAllowed || feed.supplyV > b.ceiling.collectorV || (ownA === undefined && worstA > b.ceiling.baseA))
    return gapPiece(
      'V_BE',
      `Its test current of up to ${say(worstA, 'A')} is more than the ratings of ${b.name} allow.`,
    )
  const read: ReadStep = {
    kind: 'read',
    id: 'v-be-1',
    reads: 'V_BE',
    point: 1,
    range: range.id,
    ...fedBy(feed),
    currentA: worstA,
    conditions: at,
    window: windowOn(b.tester, range, e),
    ...timed(time),
    say: 'Read the base-emitter voltage.',
    why: 'It tells germanium from silicon.',
    odd: advise('wrongMaterial', 'drifting', 'wrongWay'),
  }
  const steps = [setRange('v-be-1-range', range, 'As the tester offers it.', 'Turn to base voltage, on'), read]
  return { groups: [heated(time, steps)], gaps: [] }
}

/** Saturation worked out: the collector resistor of the test sets the current. */
interface Saturation {
  readonly feed: Feed
  readonly collectorA: number
  readonly baseA: number
  readonly at: Conditions
  readonly time: OnTime
}

const maxBaseA = (b: Bench): number => (b.tester.gain.kind === 'ratio' ? b.tester.gain.maxBaseA : 0)

/** One way to saturate the part on one feed, or nothing where it is too much. */
function saturationOn(b: Bench, feed: Feed): Saturation | undefined {
  const collectorA = feed.supplyV / feed.ohm
  const limit = nearestLimit(b, 'V_CE(sat)', { I_C: collectorA })
  const forced = limit?.at.I_C !== undefined && (limit.at.I_B ?? 0) > 0 ? limit.at.I_C / limit.at.I_B! : 10
  const baseA = settable(collectorA / forced)
  // Should the part not saturate, the resistor shares the supply with it: at worst each takes half.
  const worstW = (feed.supplyV * collectorA) / 4 + baseA
  const time = onTime(b.ceiling, worstW, collectorA)
  if (
    feed.supplyV > b.ceiling.collectorV ||
    collectorA > feed.maxA ||
    baseA > Math.min(b.ceiling.baseA, maxBaseA(b)) ||
    !time.isAllowed
  )
    return undefined
  return {
    feed,
    collectorA,
    baseA,
    at: { I_C: Number(collectorA.toPrecision(3)), I_B: baseA },
    time,
  }
}

/** The saturation nearest in current to a published one. */
function saturationOf(b: Bench): Saturation | string {
  const feeds = feedsOf(b.tester, 'V_CE(sat)').filter((f) => f.seriesOhm > 0)
  if (b.tester.gain.kind !== 'ratio') return 'The base current of this test cannot be set on this tester.'
  if (feeds.length === 0) return 'This test has no resistor in the collector lead, so nothing limits the current.'
  const ways = feeds.map((f) => saturationOn(b, f))
  const far = (s: Saturation): number => {
    const wanted = nearestLimit(b, 'V_CE(sat)', s.at)?.at.I_C
    return wanted === undefined ? 0 : Math.abs(Math.log(s.collectorA / wanted))
  }
  const best = ways.filter((w) => w !== undefined).sort((x, y) => far(x) - far(y) || x.collectorA - y.collectorA)[0]
  return best ?? `Its currents are more than the ratings of ${b.name} allow.`
}

function setSaturation(s: Saturation, range: Range): readonly Step[] {
  const id = 'v-ce-sat'
  const finest = 'The finest range that holds the voltage expected.'
  return [
    biasZero(id),
    {
      kind: 'set',
      id: `${id}-test`,
      what: 'test',
      value: 'V_CE(sat)',
      say: 'Turn the test switch to saturation.',
      why: 'Saturation comes last: it needs the most base current.',
    },
    ...setFeed(id, s.feed, 'The resistor in the collector lead sets the collector current.'),
    setRange(`${id}-range`, range, finest, 'Turn the meter to collector voltage, on'),
    {
      kind: 'set',
      id: `${id}-base`,
      what: 'base current',
      value: s.baseA,
      unit: 'A',
      say: `Turn the base control up to ${say(s.baseA, 'A')} of base current.`,
      why: 'Saturation holds at a ratio of collector to base current: the published one, or ten.',
    },
  ]
}

/** Saturation voltage, where a resistor in the collector lead sets the current and the base current can be set. */
export function saturationPiece(b: Bench, point: number): Piece {
  const isPublished = b.partType?.limits.some((l) => l.symbol === 'V_CE(sat)') ?? false
  if (offersOf(b.tester, 'V_CE(sat)').length === 0 || !isPublished) return nothing
  const s = saturationOf(b)
  if (typeof s === 'string') return gapPiece('V_CE(sat)', s)
  const e = expected(b, 'V_CE(sat)', s.at)
  const range = rangeFor(b.tester, rangesOn(b.tester, s.feed), e.max ?? e.typ ?? 1)
  if (range === undefined) return nothing
  const read: ReadStep = {
    kind: 'read',
    id: 'v-ce-sat',
    reads: 'V_CE(sat)',
    point,
    range: range.id,
    ...(range.scale === undefined ? {} : { scale: range.scale }),
    ...fedBy(s.feed),
    currentA: s.collectorA,
    conditions: s.at,
    window: windowOn(b.tester, range, e),
    ...timed(s.time),
    say: 'Read the collector voltage.',
    why: 'How far the part can close as a switch.',
    odd: advise('noCurrent', 'wrongWay', 'drifting'),
  }
  return { groups: [heated(s.time, [...setSaturation(s, range), read])], gaps: [] }
}
