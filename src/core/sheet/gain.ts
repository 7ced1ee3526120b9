import type { Conditions } from '#core/device'
import type { Gain } from '#core/tester'
import { advise } from './advice.ts'
import type { Bench } from './bench.ts'
import { heated, onTime, timed } from './ceiling.ts'
import { expected } from './expected.ts'
import { rangesOn, windowOfNumber } from './face.ts'
import { type Feed, fedBy, feedsOf } from './feed.ts'
import { dialReadings } from './gain-dial.ts'
import { otherVoltageGroups, ratioReadings } from './gain-ratio.ts'
import { visit } from './gain-step.ts'
import { type Group, gapPiece, type Piece } from './group.ts'
import { mainPoint, type OperatingPoint, otherVoltage, pointPower, secondPoint } from './operating-point.ts'
import { say } from './say.ts'
import type { Step } from './sheet.ts'
import { baseVoltageReading } from './voltage.ts'

/** What a gain reading needs that this tester lacks. */
function lack(b: Bench): string | undefined {
  const g = b.tester.gain
  if (g.kind === 'none') return 'This tester does not measure gain.'
  const needs = g.kind === 'ratio' ? (['I_C', 'I_B'] as const) : (['h_FE'] as const)
  const missing = needs.filter((n) => !b.tester.tests.some((t) => t.reads === n))
  return missing.length === 0 ? undefined : `The tester's description offers no test of ${missing.join(' and ')}.`
}

export interface GainPlan extends Piece {
  /** The point other readings follow. */
  readonly main?: OperatingPoint
  /** Number of the next free point. */
  readonly nextPoint: number
}

const refused = (why: string, mend?: string): GainPlan => ({ ...gapPiece('h_FE', why, mend), nextPoint: 1 })

/** Gain at one or two collector currents, and with a ratio tester at a second collector voltage. */
export function gainPlan(b: Bench): GainPlan {
  const g = b.tester.gain
  const why = lack(b)
  if (why !== undefined) return refused(why)
  if (g.kind === 'digital') return digitalPlan(b, g)
  const main = mainPoint(b)
  if (main === undefined || g.kind === 'none')
    return refused(
      `No collector current and voltage this tester offers lies within what the ratings of ${b.name} allow in this room.`,
      'Use a tester with a lower supply or smaller currents.',
    )
  const groupsAt = (p: OperatingPoint, n: number): readonly Group[] => {
    const readings = g.kind === 'ratio' ? ratioReadings(b, p, n) : dialReadings(b, g, p, n)
    return visit(b, p, n, [...readings, ...baseVoltageReading(b, p, n)])
  }
  const second = b.partType === undefined ? undefined : secondPoint(b, main)
  const points = [main, ...(second === undefined ? [] : [second])]
  const pairs = g.kind !== 'ratio' || b.partType === undefined ? [] : voltagePairs(b, points)
  const next = points.length + 1
  const groups = [
    ...points.flatMap((p, i) => groupsAt(p, i + 1)),
    ...pairs.flatMap(([first, other]) => otherVoltageGroups(b, first, other, next)),
  ]
  return { groups, gaps: wishGap(b, main), main, nextPoint: next + pairs.length }
}

type Pair = readonly [first: OperatingPoint, other: OperatingPoint]

/** The first of the points that can be read at another collector voltage too. */
function voltagePairs(b: Bench, points: readonly OperatingPoint[]): readonly Pair[] {
  const pairs = points.map((p) => [p, otherVoltage(b, p)] as const).filter((p): p is Pair => p[1] !== undefined)
  return pairs.slice(0, 1)
}

function wishGap(b: Bench, p: OperatingPoint): Piece['gaps'] {
  const asked = b.wishes.collectorA
  if (asked === undefined || Math.abs(p.collectorA / asked - 1) < 1e-6) return []
  const why = `You asked for ${say(asked, 'A')}; ratings, heat and this tester allow ${say(p.collectorA, 'A')}.`
  return [{ symbol: 'h_FE', why }]
}

type Digital = Extract<Gain, { kind: 'digital' }>

/** Largest gain to reckon with, where only the base current of a display is known. */
const strongestGain = (b: Bench): number =>
  Math.max(...(b.partType?.limits ?? []).filter((l) => l.symbol === 'h_FE').map((l) => l.max ?? 0), 1000)

/** The largest collector current a display tester can bring about, A. */
const displayWorstA = (b: Bench, g: Digital, feed: Feed): number =>
  Math.min(feed.maxA, g.collectorA ?? (g.baseA === undefined ? Number.POSITIVE_INFINITY : g.baseA * strongestGain(b)))

/** Gain on a display: the tester sets its own point, which must lie within the ratings. */
function digitalPlan(b: Bench, g: Digital): GainPlan {
  const feed = feedsOf(b.tester, 'h_FE')[0]
  if (feed === undefined) return refused('No supply of this test lies within the limits of the tester.')
  const worstA = displayWorstA(b, g, feed)
  const supplyV = b.tester.supplies.length === 0 ? (g.collectorV ?? feed.supplyV) : feed.supplyV
  const ownV = b.tester.limits.maxVoltageV
  if (supplyV > ownV)
    return refused(
      `Its socket works at ${say(supplyV, 'V')}, above the limit of ${say(ownV, 'V')} that its description gives the tester.`,
      'One of the two is wrong: put collectorVoltage of the gain, or the voltage limit, right.',
    )
  const time = onTime(b.ceiling, pointPower(b, supplyV, worstA), worstA)
  if (supplyV > b.ceiling.collectorV || !time.isAllowed)
    return refused(
      `It works at up to ${say(supplyV, 'V')} and ${say(worstA, 'A')}; the ratings of ${b.name} allow ${say(b.ceiling.collectorV, 'V')} and ${say(b.ceiling.currentA, 'A')}.`,
      'State the operating point of its socket in the tester description if it is lower.',
    )
  const at: Conditions = {
    ...(g.collectorA === undefined ? {} : { I_C: g.collectorA }),
    ...(g.baseA === undefined ? {} : { I_B: g.baseA }),
    ...(g.collectorV === undefined ? {} : { V_CE: g.collectorV }),
  }
  const fed = { ...fedBy(feed), supplyV, currentA: worstA, ...timed(time) }
  return { groups: [heated(time, [readDisplay(b, feed, at, fed)])], gaps: [], nextPoint: 2 }
}

type ReadStep = Extract<Step, { kind: 'read' }>
type Fed = Pick<ReadStep, 'supply' | 'supplyV' | 'currentA' | 'safeSeconds'>

function readDisplay(b: Bench, feed: Feed, at: Conditions, fed: Fed): ReadStep {
  const range = rangesOn(b.tester, feed)[0]
  return {
    kind: 'read',
    id: 'h-fe-1',
    reads: 'h_FE',
    point: 1,
    ...(range === undefined ? {} : { range: range.id }),
    ...fed,
    conditions: at,
    window: windowOfNumber(expected(b, 'h_FE', at)),
    say: 'Put the part into the gain socket and read the gain on the display.',
    why: 'The tester sets its own operating point; the gain holds there and nowhere else.',
    odd: advise('wrongWay', 'noDeflection', 'ownCurrent', 'drifting'),
  }
}
