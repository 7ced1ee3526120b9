import type { ConditionSymbol, Conditions } from '#core/device'
import { heatDefaults, pathResistance } from '#core/physics'
import { fullScaleAtPart, type Range } from '#core/tester'
import { advise } from './advice.ts'
import { type Bench, within } from './bench.ts'
import { heated, type OnTime, onTime, readablePower, timed } from './ceiling.ts'
import { type Expected, expected, nearestLimit } from './expected.ts'
import { rangeFor, rangesOn, setRange, windowOn } from './face.ts'
import { type Feed, fedBy, feedsOf, offersOf, setFeed } from './feed.ts'
import { gapPiece, nothing, type Piece } from './group.ts'
import { rules } from './rule.ts'
import { say, settable, slug } from './say.ts'
import type { Step } from './sheet.ts'

export type LeakageSymbol = 'I_CBO' | 'I_CES' | 'I_CEO' | 'I_EBO' | 'I_R'

/** How each leakage test joins the part, and why it is read. */
const tests: Readonly<Record<LeakageSymbol, { of: ConditionSymbol; joins: string; why: string }>> = {
  I_CBO: {
    of: 'V_CB',
    joins: 'collector to base, emitter open',
    why: 'The collector junction alone: the smallest leakage of the part and the gentlest test.',
  },
  I_CES: {
    of: 'V_CE',
    joins: 'collector to emitter, base joined to emitter',
    why: 'The base is held, so gain does not multiply the leakage.',
  },
  I_CEO: {
    of: 'V_CE',
    joins: 'collector to emitter, base open',
    why: 'This current is in every gain reading and is taken out of it later; in germanium it is large and climbs with warmth.',
  },
  I_EBO: {
    of: 'V_EB',
    joins: 'emitter to base, collector open',
    why: 'The emitter junction, well below its rating: an emitter junction driven into breakdown loses gain for good.',
  },
  I_R: {
    of: 'V_R',
    joins: 'the diode reversed',
    why: 'Reverse leakage, read before any forward current warms the part.',
  },
}

/** Highest voltage each test may put on the part, V; undefined where it may not be made at all. */
function ceilingV(b: Bench, symbol: LeakageSymbol): number | undefined {
  const c = b.ceiling
  if (symbol === 'I_CBO') return c.collectorBaseV
  if (symbol === 'I_EBO') return c.emitterBaseV
  return symbol === 'I_R' ? c.reverseV : c.collectorV
}

/** Leakage at which the person switches off: heat, self-heating, ratings and tester all stay within bounds below it. */
function stopA(b: Bench, symbol: LeakageSymbol, feed: Feed): number {
  const c = b.ceiling
  const rth = pathResistance(c.path)
  const perAmpere = (rth * feed.supplyV * Math.LN2) / heatDefaults.leakageDoublingK
  const isHeld = feed.ohm > 0 && (perAmpere * feed.supplyV) / (8 * feed.ohm) <= rules.loopGain
  return Math.min(
    symbol === 'I_EBO' ? c.baseA : c.currentA,
    readablePower(c) / feed.supplyV,
    isHeld ? Number.POSITIVE_INFINITY : rules.loopGain / perAmpere,
    feed.maxA,
  )
}

/** The feed nearest below the voltage wanted, never above the ceiling; the lowest where nothing is wanted. */
export function feedFor(feeds: readonly Feed[], ceilingVolt: number, wantedV: number | undefined): Feed | undefined {
  const allowed = feeds.filter((f) => f.supplyV <= ceilingVolt)
  const below = wantedV === undefined ? [] : allowed.filter((f) => f.supplyV <= wantedV * 1.001)
  const best = below.at(-1)
  return best === undefined ? allowed[0] : below.find((f) => f.supplyV === best.supplyV)
}

/** One leakage reading worked out. */
interface Plan {
  readonly feed: Feed
  readonly range: Range
  readonly stopA: number
  readonly at: Conditions
  readonly expected: Expected
}

/** Steps down in voltage until a good part's leakage stays clear of the current at which to stop. */
function planAt(b: Bench, symbol: LeakageSymbol, feeds: readonly Feed[]): Plan | undefined {
  const plans = feeds.map((feed): Plan | undefined => {
    const ranges = rangesOn(b.tester, feed)
    const at = { [tests[symbol].of]: feed.supplyV }
    const e = expected(b, symbol, at)
    const limit = stopA(b, symbol, feed)
    const most = e.max ?? e.typ ?? 0
    const range = rangeFor(b.tester, ranges, Math.min(most, limit))
    if (range === undefined || !(limit > 0)) return undefined
    const worthwhile = Math.max(fullScaleAtPart(b.tester, range), rules.leakyTimes * most)
    const stop = settable(Math.min(limit, fullScaleAtPart(b.tester, ranges.at(-1)!), worthwhile))
    return onTime(b.ceiling, feed.supplyV * stop, stop).isAllowed
      ? { feed, range, stopA: stop, at, expected: e }
      : undefined
  })
  const usable = plans.filter((p) => p !== undefined)
  return usable.find((p) => p.stopA >= (p.expected.max ?? p.expected.typ ?? 0) * 0.999) ?? usable.at(-1)
}

const timeOf = (b: Bench, p: Plan): OnTime => onTime(b.ceiling, p.feed.supplyV * p.stopA, p.stopA)

function readStep(b: Bench, symbol: LeakageSymbol, p: Plan): Step {
  const isGlass = /glass|SO-2|DO-7/i.test(b.partType?.outline ?? '')
  return {
    kind: 'read',
    id: slug(symbol),
    reads: symbol,
    point: 0,
    range: p.range.id,
    ...(p.range.scale === undefined ? {} : { scale: p.range.scale }),
    ...fedBy(p.feed),
    currentA: p.stopA,
    conditions: p.at,
    window: windowOn(b.tester, p.range, p.expected),
    ...timed(timeOf(b, p)),
    say: `Read ${symbol} at ${say(p.feed.supplyV, 'V')}. Switch off if it passes ${say(p.stopA, 'A')}.`,
    why: tests[symbol].why,
    odd: advise('nearZero', 'pegged', 'drifting', ...(isGlass ? (['light'] as const) : []), 'wrongWay'),
  }
}

function stepsFor(b: Bench, symbol: LeakageSymbol, p: Plan): readonly Step[] {
  const id = slug(symbol)
  const coarsest = rangesOn(b.tester, p.feed).at(-1)!
  const isCoarse = coarsest.id === p.range.id
  return [
    {
      kind: 'set',
      id: `${id}-test`,
      what: 'test',
      value: symbol,
      say: `Turn the test switch to ${symbol}: ${tests[symbol].joins}.`,
      why: 'Leakage comes before gain: it is needed to correct the gain, and a very leaky part need not be driven.',
    },
    setRange(
      `${id}-range-first`,
      coarsest,
      'Begin on the highest range: a bad part then cannot hurt the movement.',
      'Begin on',
    ),
    ...setFeed(id, p.feed, within(b, ceilingV(b, symbol)!)),
    ...(isCoarse
      ? []
      : [
          setRange(
            `${id}-range`,
            p.range,
            'If the needle stays low, go down one range at a time: higher up the scale it reads better.',
            'Go down to',
          ),
        ]),
    readStep(b, symbol, p),
  ]
}

/** The voltage that would be useful: the published one, else what the person wished. */
const wantedV = (b: Bench, symbol: LeakageSymbol, fallbackV: number | undefined): number | undefined =>
  nearestLimit(b, symbol, {})?.at[tests[symbol].of] ?? b.wishes.supplyV ?? fallbackV

/**
 * One leakage test: at the published voltage or the nearest below it, on the range where a good part's needle stands
 * high, with the current at which to switch off.
 *
 * @param fallbackV voltage to use where none is published, V: that of the gain reading it will correct
 */
export function leakagePiece(b: Bench, symbol: LeakageSymbol, fallbackV?: number): Piece {
  if (offersOf(b.tester, symbol).length === 0) return nothing
  const ceiling = ceilingV(b, symbol)
  if (ceiling === undefined) {
    const mend = b.partType === undefined ? undefined : 'Find its datasheet and add V_EBO to its record.'
    return gapPiece(symbol, 'V_EBO is not known, so the emitter junction is not reversed.', mend)
  }
  const wanted = wantedV(b, symbol, fallbackV)
  const feeds = feedsOf(b.tester, symbol, wanted === undefined ? [] : [Math.min(wanted, ceiling)])
  const first = feedFor(feeds, ceiling, wanted)
  if (first === undefined)
    return gapPiece(
      symbol,
      `The lowest supply is ${say(feeds[0]?.supplyV ?? 0, 'V')}; the ratings of ${b.name} allow ${say(ceiling, 'V')} with a margin.`,
      'Use a lower supply.',
    )
  const plan = planAt(b, symbol, [first, ...feeds.filter((f) => f.supplyV < first.supplyV).reverse()])
  if (plan === undefined) return gapPiece(symbol, 'No voltage and range of this tester keeps the part cool enough.')
  return { groups: [heated(timeOf(b, plan), stepsFor(b, symbol, plan))], gaps: [] }
}
