import type { Conditions } from '#core/device'
import type { Range } from '#core/tester'
import { advise } from './advice.ts'
import { type Bench, within } from './bench.ts'
import { heated, timed } from './ceiling.ts'
import type { Expected } from './expected.ts'
import { setRange, windowOn } from './face.ts'
import { fedBy, setFeed } from './feed.ts'
import type { Group } from './group.ts'
import {
  collectorRanges,
  gainReads,
  type OperatingPoint,
  rangeOfCurrent,
  timeAt,
  weakestGain,
} from './operating-point.ts'
import { say, settable } from './say.ts'
import type { Step } from './sheet.ts'

export type ReadStep = Extract<Step, { kind: 'read' }>

export const conditionsOf = (p: OperatingPoint): Conditions => ({ I_C: p.collectorA, V_CE: p.collectorV })

export const biasZero = (id: string): Step => ({
  kind: 'set',
  id: `${id}-bias-zero`,
  what: 'bias',
  value: 0,
  say: 'Turn the base control to zero.',
  why: 'Every change is made from the least stress.',
})

/** Largest base current the person may turn up to at a point, A: past it the part has no gain worth the name. */
export function baseStop(b: Bench, p: OperatingPoint): number {
  const g = b.tester.gain
  const most = g.kind === 'ratio' ? g.maxBaseA : Number.POSITIVE_INFINITY
  return settable(Math.min(b.ceiling.baseA, most, p.collectorA / weakestGain(b, p.limit)))
}

export function setCollector(b: Bench, id: string, p: OperatingPoint, again = false): Step {
  const g = b.tester.gain
  const stop = g.kind === 'ratio' ? `, never past ${say(baseStop(b, p), 'A')} of base current` : ''
  return {
    kind: 'set',
    id,
    what: 'collector current',
    value: p.collectorA,
    unit: 'A',
    say: again
      ? `Set the collector current to ${say(p.collectorA, 'A')} again${g.kind === 'ratio' && b.tester.movement !== undefined ? ': turn the meter back for a moment to see it' : ''}.`
      : `Turn the base control up slowly until the collector current is ${say(p.collectorA, 'A')}${stop}.`,
    why: again ? 'A change of range changes what the meter drops, and with it the collector current.' : p.why,
  }
}

/** Range of the collector current, from the highest down while nothing flows. */
function collectorRangeSteps(b: Bench, id: string, p: OperatingPoint, isFirst: boolean): readonly Step[] {
  const range = rangeOfCurrent(b, p.feed, p.collectorA)
  const coarsest = collectorRanges(b, p.feed).at(-1)
  if (range === undefined || coarsest === undefined) return []
  const own = setRange(
    `${id}-range`,
    range,
    `The finest that holds ${say(p.collectorA, 'A')}: the needle stands highest on it.`,
    'Turn to',
  )
  if (!isFirst || coarsest.id === range.id) return [own]
  return [
    setRange(
      `${id}-range-first`,
      coarsest,
      'With the bias at zero only leakage flows: the highest range first.',
      'Begin on',
    ),
    own,
  ]
}

export function readCollector(b: Bench, p: OperatingPoint, point: number, range: Range): ReadStep {
  const e: Expected = { min: p.collectorA, typ: p.collectorA, max: p.collectorA, from: 'the current you set' }
  return {
    kind: 'read',
    id: `i-c-${point}`,
    reads: 'I_C',
    point,
    range: range.id,
    ...(range.scale === undefined ? {} : { scale: range.scale }),
    ...fedBy(p.feed),
    currentA: p.collectorA,
    conditions: conditionsOf(p),
    window: windowOn(b.tester, range, e),
    ...timed(timeAt(b, p)),
    say: 'Read the collector current, to a fraction of a division.',
    why: 'What was really set counts, not what was wanted.',
    odd: advise('noCurrent', 'ownCurrent', 'wrongWay', 'noDeflection', 'drifting', 'pegged'),
  }
}

/** From bias zero to the collector current of a point. */
function approach(b: Bench, p: OperatingPoint, id: string, isFirst: boolean): readonly Step[] {
  const reads = gainReads(b)
  return [
    biasZero(id),
    {
      kind: 'set',
      id: `${id}-test`,
      what: 'test',
      value: reads,
      say: reads === 'I_C' ? 'Turn the test switch to collector current.' : 'Turn the test switch to gain.',
      why: 'Gain comes after leakage.',
    },
    ...setFeed(id, p.feed, within(b, b.ceiling.collectorV)),
    ...collectorRangeSteps(b, id, p, isFirst),
    setCollector(b, `${id}-current`, p),
  ]
}

/** One reading at a point: what to turn first, and the reading. */
export interface PointReading {
  readonly turn: readonly Step[]
  readonly read: ReadStep
}

/**
 * The readings of one operating point: one after the other where the part may stay on, else each from a cool part.
 */
export function visit(b: Bench, p: OperatingPoint, point: number, readings: readonly PointReading[]): readonly Group[] {
  const time = timeAt(b, p)
  const begin = (n: number): readonly Step[] =>
    approach(b, p, n === 0 ? `point-${point}` : `point-${point}-${n + 1}`, n === 0 && point === 1)
  if (!time.needsCool) {
    const steps = [...begin(0), ...readings.flatMap((r) => [...r.turn, r.read])]
    return [heated(time, steps)]
  }
  return readings.map((r, n) => heated(time, [...begin(n), ...r.turn, r.read]))
}
