import { fullScaleAtPart, type Range, type ReadingKind } from '#core/tester'
import type { Bench } from './bench.ts'
import { type OnTime, onTime, readablePower } from './ceiling.ts'
import { expected, isNearTemperature } from './expected.ts'
import { rangesOn } from './face.ts'
import { type Feed, feedsOf, offersOf } from './feed.ts'
import { rules } from './rule.ts'
import { settable } from './say.ts'
import { type SeriesResistor, seriesResistor } from './series-resistor.ts'
import { usual } from './usual.ts'

/** A diode's forward test on one voltage. */
export interface ForwardPoint {
  readonly feed: Feed
  readonly forwardA: number
  /** With the lowest drop to reckon with, A. */
  readonly highA: number
  /** With the diode shorted, A: more cannot flow. */
  readonly mostA: number
  readonly time: OnTime
}

/** How far the current may come out above the wanted one, with a diode of less drop. */
const driftShare = 0.06

/** Voltages read below the first, for ideality and series resistance. */
const morePoints = 2

/** Highest forward drop to reckon with at a current, V: published or usual, whichever is more. */
export const worstDrop = (b: Bench, forwardA: number): number => {
  const e = expected(b, 'V_F', { I_F: forwardA })
  return Math.max(e.max ?? e.typ ?? 0, usual('V_F', b.material, b.isPower).max)
}

/** Lowest forward drop to reckon with, V. */
const lowDrop = (b: Bench): number => usual('V_F', b.material, b.isPower).min ?? 0

/** The drop a resistor is worked out with: typical where known, V. */
export const likelyDrop = (b: Bench, forwardA: number): number => {
  const e = expected(b, 'V_F', { I_F: forwardA })
  return e.typ ?? (e.max === undefined ? 0.7 : e.max * 0.8)
}

/** The forward current wanted: as asked, the largest published one within the ceiling, else a gentle one, A. */
export function wantedA(b: Bench): number {
  const most = forwardCeiling(b)
  const gentle = b.isPower || (b.material === 'Si' && b.partType !== undefined) ? 10 * rules.gentleA : rules.gentleA
  const published = (b.partType?.limits ?? [])
    .filter((l) => l.symbol === 'V_F' && isNearTemperature(l, b.wishes.ambientC))
    .map((l) => l.at.I_F ?? 0)
    .filter((a) => a > 0)
  const within = published.filter((a) => a <= most)
  const asked = b.wishes.forwardA ?? (within.length > 0 ? Math.max(...within) : published.length > 0 ? most : gentle)
  return Math.min(asked, most)
}

/** The wanted current, or less where the forward current could not be read, or only low on a much coarser range. */
function onScale(b: Bench, feed: Feed, forwardA: number): number {
  const ranges = rangesWith(b, feed, 'I_F').map((r) => fullScaleAtPart(b.tester, r))
  const reach = forwardA * (1 + driftShare)
  const finer = ranges.filter((r) => r < reach && (r >= reach * (1 - rules.conditionShare) || r === ranges.at(-1)))
  return settable(Math.min(forwardA, (finer.at(-1) ?? reach) / (1 + driftShare)))
}

/** Largest forward current within rating, heat and tester, A. */
function forwardCeiling(b: Bench): number {
  const c = b.ceiling
  const drop = worstDrop(b, c.currentA)
  return Math.min(c.currentA, readablePower(c) / drop, b.tester.limits.maxCurrentA)
}

/** One point on one feed with a resistor in series; nothing where it is too much or leaves no current. */
function pointOn(b: Bench, feed: Feed, resistorOhm: number): ForwardPoint | undefined {
  const ohm = feed.ohm + resistorOhm
  const mostA = ohm > 0 ? feed.supplyV / ohm : Number.POSITIVE_INFINITY
  const forwardA = ohm > 0 ? (feed.supplyV - likelyDrop(b, mostA)) / ohm : 0
  if (!(forwardA > 0) || mostA > Math.min(feed.maxA, b.ceiling.currentA)) return undefined
  // Put in reversed, a Zener diode breaks down: at worst it then shares the supply with the resistance.
  const reversedW = b.partType?.family === 'zener' ? (feed.supplyV * mostA) / 4 : 0
  const time = onTime(b.ceiling, Math.max(mostA * worstDrop(b, mostA), reversedW), mostA)
  if (!time.isAllowed) return undefined
  const highA = Math.max(forwardA, (feed.supplyV - lowDrop(b)) / ohm)
  return { feed, forwardA: Number(forwardA.toPrecision(3)), highA, mostA, time }
}

/** Voltages useful for a forward test from an outside supply, V (common practice). */
const usefulV = [3, 6, 9] as const

/** Feeds by circuit that leave something for the resistor and that a diode put in reversed would bear, lowest first. */
export function usableFeeds(b: Bench, wanted: number): readonly (readonly Feed[])[] {
  const drop = worstDrop(b, wanted)
  const isZener = b.partType?.family === 'zener'
  const feeds = feedsOf(b.tester, 'V_F', b.wishes.supplyV === undefined ? usefulV : [b.wishes.supplyV]).filter(
    (f) => f.supplyV >= rules.forwardHeadroom * drop && (isZener || f.supplyV <= b.ceiling.reverseV),
  )
  const circuits = [...new Set(feeds.map((f) => `${f.supply} ${f.seriesOhm}`))]
  return circuits.map((c) => feeds.filter((f) => `${f.supply} ${f.seriesOhm}` === c))
}

/** Works the resistor out for a feed, for less current where the shorted diode would draw too much. */
function resistorFor(b: Bench, feed: Feed, wanted: number): SeriesResistor | undefined {
  const most = Math.min(b.ceiling.currentA, feed.maxA) * (1 - 1e-9)
  const dropV = likelyDrop(b, wanted)
  const byShort = ((feed.supplyV - dropV) * most) / feed.supplyV
  return seriesResistor({ supplyV: feed.supplyV, dropV, wantedA: Math.min(wanted, byShort), ohmThere: feed.ohm })
}

/** A resistor and the points it gives on one supply, highest voltage first. */
export interface Circuit {
  readonly points: readonly ForwardPoint[]
  readonly resistor?: SeriesResistor
}

export function circuitOn(b: Bench, feeds: readonly Feed[], wanted: number): Circuit | undefined {
  const top = feeds[Math.min(morePoints, feeds.length - 1)]
  if (top === undefined) return undefined
  const resistor = resistorFor(b, top, onScale(b, top, wanted))
  const below = feeds.filter((f) => f.supplyV <= top.supplyV).reverse()
  const points = below.map((f) => pointOn(b, f, resistor?.ohm ?? 0)).filter((p) => p !== undefined)
  if (points[0]?.feed !== top) return undefined
  return { points, ...(resistor === undefined ? {} : { resistor }) }
}

/** Ranges of a reading that go with a feed's supply. */
export function rangesWith(b: Bench, feed: Feed, reads: ReadingKind): readonly Range[] {
  if (reads === 'V_F') return rangesOn(b.tester, feed)
  const offers = offersOf(b.tester, reads).filter((o) => o.supply === undefined || o.supply === feed.supply)
  return rangesOn(b.tester, { ...feed, ranges: offers.flatMap((o) => o.ranges) })
}
