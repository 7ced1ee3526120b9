import type { Conditions } from '#core/device'
import { advise } from './advice.ts'
import type { Bench } from './bench.ts'
import { heated, onTime, timed } from './ceiling.ts'
import { type Expected, expected } from './expected.ts'
import { rangeFor, setRange, windowOn } from './face.ts'
import { fedBy, feedsOf, offersOf, setFeed } from './feed.ts'
import {
  type Circuit,
  circuitOn,
  type ForwardPoint,
  likelyDrop,
  rangesWith,
  usableFeeds,
  wantedA,
  worstDrop,
} from './forward-circuit.ts'
import { coolGroup, type Group, gapPiece, nothing, type Piece } from './group.ts'
import { rules } from './rule.ts'
import { say, slug } from './say.ts'
import type { SeriesResistor } from './series-resistor.ts'
import type { Step } from './sheet.ts'

/** The forward plan, and the resistor it needs. */
export interface ForwardPlan extends Piece {
  readonly seriesResistor?: SeriesResistor
}

/** The drop a range must hold: the likely one, where the largest lies little above it. */
function shownDrop(b: Bench, p: ForwardPoint, e: Expected): number {
  const likely = likelyDrop(b, p.forwardA)
  const most = e.max ?? likely
  return most <= 1.3 * likely ? Math.min(most, likely * 1.03) : most
}

function readStep(b: Bench, p: ForwardPoint, reads: 'V_F' | 'I_F', point: number): readonly Step[] {
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

function groupsAt(b: Bench, p: ForwardPoint, point: number): readonly Group[] {
  const why =
    point === 1
      ? 'The resistor takes what the diode does not.'
      : 'A lower voltage through the same resistor: a second current.'
  const kinds = (['I_F', 'V_F'] as const).filter((k) => rangesWith(b, p.feed, k).length > 0)
  return kinds.map((k) => heated(p.time, [...setFeed(`${slug(k)}-${point}`, p.feed, why), ...readStep(b, p, k, point)]))
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
