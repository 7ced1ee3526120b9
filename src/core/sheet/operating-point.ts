import type { Limit } from '#core/device'
import { burdenOf, fullScaleAtPart, type Range, type ReadingKind } from '#core/tester'
import type { Bench } from './bench.ts'
import { type OnTime, onTime, readablePower } from './ceiling.ts'
import { isNearTemperature } from './expected.ts'
import { rangeFor, rangesOf, rangesOn } from './face.ts'
import { type Feed, feedsOf, offersOf } from './feed.ts'
import { rules } from './rule.ts'
import { settable } from './say.ts'

/** A collector current and voltage at which a part is read. */
export interface OperatingPoint {
  readonly feed: Feed
  readonly collectorA: number
  /** Voltage at the part: the supply less what source and meter drop at this current, V. */
  readonly collectorV: number
  /** Published limit of gain it stands for. */
  readonly limit?: Limit
  /** Why this point, for people. */
  readonly why: string
}

/** Collector voltage that is left at the least, so that the part is not saturated, V (common practice). */
const activeV = 0.5

/** Which test sets the collector current: that of the gain dial, or the plain collector current. */
export const gainReads = (b: Bench): ReadingKind => (b.tester.gain.kind === 'ratio' ? 'I_C' : 'h_FE')

/** Current ranges of the test that sets the collector current with this supply, finest first. */
function ownCollectorRanges(b: Bench, feed: Feed): readonly Range[] {
  const own = offersOf(b.tester, 'I_C').filter((o) => o.supply === undefined || o.supply === feed.supply)
  const ids = gainReads(b) === 'I_C' || own.length === 0 ? feed.ranges : own.flatMap((o) => o.ranges)
  return rangesOn(b.tester, { ...feed, ranges: ids }).filter((r) => r.measures === 'current')
}

/**
 * Ranges for the base current that may be turned to from a collector range. Where one movement reads both they lie at
 * most one range below it: the switch passes every range between, and a low range does not bear the collector current.
 */
export function baseRanges(b: Bench, feed: Feed, collector: Range): readonly Range[] {
  const ranges = rangesOf(b.tester, 'I_B')
  if (b.tester.movement === undefined) return ranges
  const all = [...ranges, ...ownCollectorRanges(b, feed)].map((r) => r.fullScale)
  const below = Math.max(0, ...all.filter((fullScale) => fullScale < collector.fullScale))
  return ranges.filter((r) => r.fullScale >= below)
}

/**
 * Ranges on which the collector current is read with this supply, finest first; on a tester that reads both currents
 * only those from which the base current can be read too.
 */
export function collectorRanges(b: Bench, feed: Feed): readonly Range[] {
  const own = ownCollectorRanges(b, feed)
  return gainReads(b) === 'I_C' ? own.filter((r) => baseRanges(b, feed, r).length > 0) : own
}

/** Resistance a current range puts in series, ohm. */
export const meterOhm = (b: Bench, range: Range | undefined): number =>
  range === undefined ? 0 : burdenOf(range, b.tester.movement, range.fullScale) / range.fullScale

/** Gains below which a part counts as having none, and above which no more base current is allowed for. */
const gainFloor = 5
const gainEnough = 10

/** The smallest gain to reckon with, for how far the base current may be turned up and how it warms the part. */
export function weakestGain(b: Bench, limit?: Limit): number {
  const all = (b.partType?.limits ?? []).filter((l) => l.symbol === 'h_FE').map((l) => l.min ?? gainEnough)
  return Math.max(gainFloor, Math.min(gainEnough, ...(limit?.min === undefined ? all : [limit.min])))
}

/** Power at a point, W: collector power, and the base current at about 1 V. */
export const pointPower = (b: Bench, supplyV: number, collectorA: number, limit?: Limit): number =>
  collectorA * (supplyV + 1 / weakestGain(b, limit))

/** Largest collector current on one feed within every rating and what the tester can set and read, A. */
export function collectorCeiling(b: Bench, feed: Feed, limit?: Limit): number {
  const g = b.tester.gain
  const span = g.kind === 'dial' || g.kind === 'ratio' ? g.collectorA[1] : Number.POSITIVE_INFINITY
  const coarsest = collectorRanges(b, feed).at(-1)
  if (g.kind === 'ratio' && coarsest === undefined) return 0
  const base = g.kind === 'ratio' ? Math.min(g.maxBaseA, b.ceiling.baseA) : Number.POSITIVE_INFINITY
  const path = feed.ohm + meterOhm(b, coarsest)
  return Math.min(
    span,
    coarsest === undefined ? Number.POSITIVE_INFINITY : fullScaleAtPart(b.tester, coarsest),
    b.ceiling.currentA,
    base * weakestGain(b, limit),
    feed.maxA,
    readablePower(b.ceiling) / (feed.supplyV + 1 / weakestGain(b, limit)),
    path > 0 ? Math.max(0, feed.supplyV - activeV) / path : Number.POSITIVE_INFINITY,
  )
}

/** The span of collector currents a feed offers, or nothing where even the least is too much. */
function spanOf(b: Bench, feed: Feed, limit?: Limit): readonly [low: number, high: number] | undefined {
  const g = b.tester.gain
  if (g.kind !== 'dial' && g.kind !== 'ratio') return undefined
  const ceiling = collectorCeiling(b, feed, limit)
  if (!(ceiling > 0)) return undefined
  const high = settable(ceiling)
  return high >= g.collectorA[0] ? [g.collectorA[0], high] : undefined
}

/** What gain is wanted at: the wish, each published condition, or a gentle default. */
export interface Target {
  readonly collectorA: number
  readonly collectorV?: number
  readonly limit?: Limit
}

/** Collector current that hurts nothing, A. */
export const gentleA = (b: Bench): number =>
  b.isPower
    ? Math.max(rules.gentleA, b.ceiling.currentA * rules.gentleShare)
    : Math.min(rules.gentleA, b.ceiling.currentA)

function targetsOf(b: Bench): readonly Target[] {
  const published = (b.partType?.limits ?? []).filter(
    (l) => l.symbol === 'h_FE' && (l.at.I_C ?? 0) > 0 && isNearTemperature(l, b.wishes.ambientC),
  )
  const asked = b.wishes.collectorA
  if (asked !== undefined) return [{ collectorA: asked }]
  if (published.length === 0) return [{ collectorA: gentleA(b) }]
  return published.map((limit) => {
    const volt = limit.at.V_CE ?? (limit.at.V_CB === undefined ? undefined : limit.at.V_CB + 0.5)
    return { collectorA: limit.at.I_C!, ...(volt === undefined ? {} : { collectorV: volt }), limit }
  })
}

/** How far a point lies from a target: current counts fully, voltage half. */
function farness(feed: Feed, collectorA: number, t: Target, wishedV: number | undefined): number {
  const volt = wishedV ?? t.collectorV
  const currentPart = Math.abs(Math.log(collectorA / t.collectorA))
  return currentPart + (volt === undefined || volt <= 0 ? 0 : Math.abs(Math.log(feed.supplyV / volt)) / 2)
}

/** Voltage left at the part, V. */
export const partV = (b: Bench, feed: Feed, collectorA: number): number =>
  Number((feed.supplyV - collectorA * (feed.ohm + meterOhm(b, rangeOfCurrent(b, feed, collectorA)))).toPrecision(3))

/** The range on which a collector current is read. */
export const rangeOfCurrent = (b: Bench, feed: Feed, collectorA: number): Range | undefined =>
  rangeFor(b.tester, collectorRanges(b, feed), collectorA)

/** Feeds of the gain test that the part's V_CE ceiling allows, lowest first. */
export function gainFeeds(b: Bench): readonly Feed[] {
  const wanted = [b.wishes.supplyV, ...targetsOf(b).map((t) => t.collectorV)].filter((v) => v !== undefined)
  const ceiling = b.ceiling.collectorV
  return feedsOf(
    b.tester,
    gainReads(b),
    wanted.map((v) => Math.min(v, ceiling)),
  ).filter((f) => f.supplyV <= ceiling)
}

/** A little less current where that takes a much finer range: 12 mA becomes 10 mA at its full scale. */
function onScale(b: Bench, feed: Feed, collectorA: number): number {
  const finer = collectorRanges(b, feed)
    .map((r) => Math.min(r.fullScale, fullScaleAtPart(b.tester, r)))
    .filter((fullScale) => fullScale < collectorA && fullScale >= collectorA * (1 - rules.conditionShare))
    .at(-1)
  return finer ?? collectorA
}

function whyPoint(b: Bench, t: Target, collectorA: number): string {
  if (t.limit !== undefined) return 'The nearest this tester comes to a published condition within the ratings.'
  if (b.wishes.collectorA === undefined) return 'No gain is published: a gentle current.'
  return collectorA === b.wishes.collectorA
    ? 'As you asked.'
    : 'As near as ratings and tester let it come to what you asked.'
}

/** A candidate with how far it is from what is wanted. */
type Candidate = OperatingPoint & { readonly far: number }

function candidate(b: Bench, feed: Feed, t: Target): Candidate | undefined {
  const span = spanOf(b, feed, t.limit)
  if (span === undefined) return undefined
  const wanted = Math.max(span[0], onScale(b, feed, Math.min(span[1], Math.max(span[0], t.collectorA))))
  const point = {
    feed,
    collectorA: wanted,
    collectorV: partV(b, feed, wanted),
    far: farness(feed, wanted, t, b.wishes.supplyV),
    why: whyPoint(b, t, wanted),
    ...(t.limit === undefined ? {} : { limit: t.limit }),
  }
  if (!(point.collectorV > 0)) return undefined
  return onTime(b.ceiling, pointPower(b, feed.supplyV, wanted, t.limit), wanted).isAllowed ? point : undefined
}

/**
 * The point at which gain is read: of all points within the ratings that the tester reaches, the one nearest to a
 * published condition, to the wish, or to a gentle current; of equals the lower voltage, then the lower current.
 */
export function mainPoint(b: Bench): OperatingPoint | undefined {
  const all = gainFeeds(b).flatMap((feed) => targetsOf(b).map((t) => candidate(b, feed, t)))
  return all
    .filter((c) => c !== undefined)
    .sort((x, y) => x.far - y.far || x.feed.supplyV - y.feed.supplyV || x.collectorA - y.collectorA)[0]
}

/** Shares of the first current tried for the second, best first; twice it where the first is the least there is. */
const secondShares = [1 / 2, 1 / 5, 1 / 10, 2] as const

/**
 * A second current at the same voltage, for small-signal parameters: one that does not need a cool part.
 */
export function secondPoint(b: Bench, first: OperatingPoint): OperatingPoint | undefined {
  const span = spanOf(b, first.feed, first.limit)
  if (span === undefined) return undefined
  const why = 'A second current: what changes between the two gives the small-signal parameters.'
  const points = secondShares
    .map((share) => settable(first.collectorA * share))
    .filter((a) => a >= span[0] && a <= span[1])
    .map((a) => ({ ...first, collectorA: a, collectorV: partV(b, first.feed, a), why }))
  return points.find((p) => p.collectorV > 0 && timeAt(b, p).isAllowed && !timeAt(b, p).needsCool)
}

/**
 * Another collector voltage at the same base current, for output conductance. It must be read on the same range, or the
 * base current cannot be held against that of the first voltage.
 */
export function otherVoltage(b: Bench, first: OperatingPoint): OperatingPoint | undefined {
  const most = first.collectorA * rules.earlyShare
  if (rangeOfCurrent(b, first.feed, most) !== rangeOfCurrent(b, first.feed, first.collectorA)) return undefined
  const fits = gainFeeds(b).filter((f) => {
    if (f.supply !== first.feed.supply || !f.ranges.includes(rangeOfCurrent(b, first.feed, most)?.id ?? ''))
      return false
    const ratio = f.supplyV / first.feed.supplyV
    if (ratio < 1.5 && ratio > 1 / 1.5) return false
    const time = onTime(b.ceiling, pointPower(b, f.supplyV, most, first.limit), most)
    return most <= collectorCeiling(b, f, first.limit) && time.isAllowed && !time.needsCool
  })
  const feed = fits.find((f) => f.supplyV > first.feed.supplyV) ?? fits.at(-1)
  if (feed === undefined || timeAt(b, first).needsCool) return undefined
  return { ...first, feed, collectorA: most, collectorV: partV(b, feed, first.collectorA) }
}

/** How long a point may stay on. */
export const timeAt = (b: Bench, p: OperatingPoint): OnTime =>
  onTime(b.ceiling, pointPower(b, p.feed.supplyV, p.collectorA, p.limit), p.collectorA)
