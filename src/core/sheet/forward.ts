import type { Conditions } from '#core/device'
import { fullScaleAtPart, type Range, type ReadingKind } from '#core/tester'
import { advise } from './advice.ts'
import { type Bench, coolGroup, type Group, gapPiece, nothing, type Piece } from './bench.ts'
import { type OnTime, onTime, readablePower, timed } from './ceiling.ts'
import { type Expected, expected, isNearTemperature } from './expected.ts'
import { rangeFor, rangesOn, setRange, windowOn } from './face.ts'
import { type Feed, fedBy, feedsOf, offersOf, setFeed } from './feed.ts'
import { rules } from './rule.ts'
import { say, settable } from './say.ts'
import { type SeriesResistor, seriesResistor } from './series-resistor.ts'
import type { Step } from './sheet.ts'
import { usual } from './usual.ts'

/** A diode's forward test on one voltage. */
interface ForwardPoint {
  readonly feed: Feed
  readonly forwardA: number
  /** With the lowest drop to reckon with, A. */
  readonly highA: number
  /** With the diode shorted, A: more cannot flow. */
  readonly mostA: number
  readonly time: OnTime
}

/** The forward plan, and the resistor it needs. */
export interface ForwardPlan extends Piece {
  readonly seriesResistor?: SeriesResistor
}

/** How far the current may come out above the wanted one, with a diode of less drop. */
const driftShare = 0.06

/** Voltages read below the first, for ideality and series resistance. */
const morePoints = 2

/** Highest forward drop to reckon with at a current, V. */
const worstDrop = (b: Bench, forwardA: number): number => {
  const e = expected(b, 'V_F', { I_F: forwardA })
  return e.max ?? e.typ ?? 1
}

/** Lowest forward drop to reckon with, V. */
const lowDrop = (b: Bench): number => usual('V_F', b.material, b.isPower).min ?? 0

/** The drop a resistor is worked out with: typical where known, V. */
const likelyDrop = (b: Bench, forwardA: number): number => {
  const e = expected(b, 'V_F', { I_F: forwardA })
  return e.typ ?? (e.max === undefined ? 0.7 : e.max * 0.8)
}

/** The forward current wanted: as asked, the largest published one within the ceiling, else a gentle one, A. */
function wantedA(b: Bench): number {
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
function usableFeeds(b: Bench, wanted: number): readonly (readonly Feed[])[] {
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
interface Circuit {
  readonly points: readonly ForwardPoint[]
  readonly resistor?: SeriesResistor
}

function circuitOn(b: Bench, feeds: readonly Feed[], wanted: number): Circuit | undefined {
  const top = feeds[Math.min(morePoints, feeds.length - 1)]
  if (top === undefined) return undefined
  const resistor = resistorFor(b, top, onScale(b, top, wanted))
  const below = feeds.filter((f) => f.supplyV <= top.supplyV).reverse()
  const points = below.map((f) => pointOn(b, f, resistor?.ohm ?? 0)).filter((p) => p !== undefined)
  if (points[0]?.feed !== top) return undefined
  return { points, ...(resistor === undefined ? {} : { resistor }) }
}

/** Ranges of a reading that go with a feed's supply. */
function rangesWith(b: Bench, feed: Feed, reads: ReadingKind): readonly Range[] {
  if (reads === 'V_F') return rangesOn(b.tester, feed)
  const offers = offersOf(b.tester, reads).filter((o) => o.supply === undefined || o.supply === feed.supply)
  return rangesOn(b.tester, { ...feed, ranges: offers.flatMap((o) => o.ranges) })
}

/** The drop a range must hold: the likely one, where the largest lies little above it. */
function shownDrop(b: Bench, p: ForwardPoint, e: Expected): number {
  const likely = likelyDrop(b, p.forwardA)
  const most = e.max ?? likely
  return most <= 1.3 * likely ? Math.min(most, likely * 1.03) : most
}

function readStep(b: Bench, p: ForwardPoint, reads: ReadingKind & ('V_F' | 'I_F'), point: number): readonly Step[] {
  const at: Conditions = { I_F: p.forwardA }
  const e: Expected =
    reads === 'V_F'
      ? expected(b, 'V_F', at)
      : { typ: p.forwardA, max: p.highA, from: 'supply less forward drop over the resistance in series' }
  const range = rangeFor(b.tester, rangesWith(b, p.feed, reads), reads === 'V_F' ? shownDrop(b, p, e) : p.highA)
  if (range === undefined) return []
  const id = `${reads === 'V_F' ? 'v-f' : 'i-f'}-${point}`
  const what = reads === 'V_F' ? 'forward voltage' : 'forward current'
  return [
    setRange(`${id}-range`, range, 'The finest range that holds what is expected.', `Turn the meter to ${what}, on`),
    {
      kind: 'read',
      id,
      reads,
      point,
      range: range.id,
      ...(range.scale === undefined ? {} : { scale: range.scale }),
      ...fedBy(p.feed),
      currentA: p.mostA,
      conditions: at,
      window: windowOn(b.tester, range, e),
      ...timed(p.time),
      say: `Read the ${what}.`,
      why:
        reads === 'V_F'
          ? 'The forward drop tells the material and holds at this current only.'
          : 'The forward drop holds at a current: read it, do not trust the resistor alone.',
      odd:
        reads === 'V_F'
          ? advise('noDeflection', 'wrongWay', 'wrongMaterial', 'pegged', 'drifting')
          : advise('noDeflection', 'wrongWay', 'pegged', 'drifting'),
    },
  ]
}

const heated = (t: OnTime, steps: readonly Step[]): Group => ({
  steps,
  warms: t.safeSeconds !== undefined,
  needsCool: t.needsCool,
})

function groupsAt(b: Bench, p: ForwardPoint, point: number): readonly Group[] {
  const feed = setFeed(
    `forward-${point}`,
    p.feed,
    point === 1
      ? 'The resistor takes what the diode does not.'
      : 'A lower voltage through the same resistor: a second current.',
  )
  const kinds = (['I_F', 'V_F'] as const).filter((k) => rangesWith(b, p.feed, k).length > 0)
  return kinds.map((k) => heated(p.time, [...feed, ...readStep(b, p, k, point)]))
}

function resistorStep(r: SeriesResistor): Step {
  return {
    kind: 'set',
    id: 'forward-resistor',
    what: 'resistor',
    value: r.ohm,
    unit: 'ohm',
    say: `With the supply off, put ${say(r.ohm, 'ohm')} (${r.series}, ${say(r.ratingW, 'W')}) in series with the diode, anode to plus.`,
    why: `Without it nothing limits the current. ${r.working}.`,
  }
}

const forwardTest: Step = {
  kind: 'set',
  id: 'forward-test',
  what: 'test',
  value: 'V_F',
  say: 'Turn the test switch to forward.',
  why: 'Forward current comes last: it warms the part.',
}

/**
 * Forward voltage at a current set by a series resistor, and at lower voltages of the supply through the same resistor.
 */
export function forwardPlan(b: Bench): ForwardPlan {
  if (offersOf(b.tester, 'V_F').length === 0) return nothing
  if (b.tester.supplies.length === 0) return unsuppliedPlan(b)
  const wanted = wantedA(b)
  const usable = wanted > 0 ? usableFeeds(b, wanted) : []
  if (usable.length === 0)
    return gapPiece(
      'V_F',
      `No supply of this tester lies between twice the forward drop and the ${say(b.ceiling.reverseV, 'V')} the diode bears put in reversed.`,
      'Use a supply of a few volts with a resistor in series.',
    )
  const far = (c: Circuit): number => Math.abs(Math.log(c.points[0]!.forwardA / wanted))
  const circuits = usable.map((feeds) => circuitOn(b, feeds, wanted)).filter((c) => c !== undefined)
  const best = circuits.sort((x, y) => far(x) - far(y))[0]
  if (best === undefined)
    return gapPiece(
      'V_F',
      `The currents of this test are more than the ratings of ${b.name} allow.`,
      'Use a larger resistor in series.',
    )
  return forwardOf(b, best)
}

function forwardOf(b: Bench, c: Circuit): ForwardPlan {
  const groups = c.points.flatMap((p, i) => groupsAt(b, p, i + 1))
  const before = [forwardTest, ...(c.resistor === undefined ? [] : [resistorStep(c.resistor)])]
  return {
    groups: [coolGroup(before), ...groups],
    gaps: wishGap(b, c.points[0]!),
    ...(c.resistor === undefined ? {} : { seriesResistor: c.resistor }),
  }
}

function wishGap(b: Bench, p: ForwardPoint): Piece['gaps'] {
  const asked = b.wishes.forwardA
  if (asked === undefined || p.forwardA >= asked * (1 - rules.conditionShare)) return []
  const why = `You asked for ${say(asked, 'A')}; ratings, heat and this tester allow ${say(p.forwardA, 'A')}.`
  return [{ symbol: 'V_F', why }]
}

/** A meter that makes its own test current: allowed where its worst lies within the ratings. */
function unsuppliedPlan(b: Bench): ForwardPlan {
  const feed = feedsOf(b.tester, 'V_F')[0]!
  const mostA = Math.min(feed.maxA, feed.ohm > 0 ? feed.supplyV / feed.ohm : Number.POSITIVE_INFINITY)
  const time = onTime(b.ceiling, mostA * worstDrop(b, mostA), mostA)
  if (!time.isAllowed || feed.supplyV > b.ceiling.reverseV)
    return gapPiece(
      'V_F',
      `The tester gives up to ${say(feed.supplyV, 'V')} and ${say(mostA, 'A')}; the ratings of ${b.name} allow ${say(b.ceiling.currentA, 'A')}.`,
      'State supply and series resistance of this test in the tester description.',
    )
  const point = { feed, forwardA: mostA, highA: mostA, mostA, time }
  const steps = readStep(b, point, 'V_F', 1).map((s) => (s.kind === 'read' ? { ...s, conditions: {} } : s))
  return { groups: [heated(time, steps)], gaps: [] }
}
