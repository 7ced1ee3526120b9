import type { Gain } from '#core/tester'
import { advise } from './advice.ts'
import type { Bench } from './bench.ts'
import { timed } from './ceiling.ts'
import { type Expected, expected } from './expected.ts'
import { rangesOf, windowOfNumber } from './face.ts'
import { fedBy } from './feed.ts'
import { conditionsOf, type PointReading, type ReadStep, readCollector, setCollector } from './gain-step.ts'
import { type OperatingPoint, rangeOfCurrent, timeAt } from './operating-point.ts'
import { say } from './say.ts'
import type { Step } from './sheet.ts'

export type Dial = Extract<Gain, { kind: 'dial' }>

/** The narrowest span that holds all gains expected, else the one in whose middle the likely one lies. */
function spanFor(g: Dial, e: Expected): Dial['spans'][number] | undefined {
  const likely =
    e.typ ?? (e.min === undefined ? (e.max ?? 100) / 2 : e.max === undefined ? e.min * 2 : Math.sqrt(e.min * e.max))
  const [low, high] = [e.min ?? likely, e.max ?? likely * 2]
  const narrow = [...g.spans].sort((a, b) => a.to / a.from - b.to / b.from)
  const far = (s: Dial['spans'][number]): number => Math.abs(Math.log(likely / Math.sqrt(Math.max(s.from, 1) * s.to)))
  return (
    narrow.find((s) => s.from <= low && s.to >= high) ??
    [...g.spans].filter((s) => s.from <= likely && s.to >= likely).sort((a, b) => far(a) - far(b))[0] ??
    [...g.spans].sort((a, b) => far(a) - far(b))[0]
  )
}

function readDial(b: Bench, g: Dial, p: OperatingPoint, point: number, e: Expected): ReadStep {
  const span = spanFor(g, e)
  return {
    kind: 'read',
    id: `h-fe-${point}`,
    reads: 'h_FE',
    point,
    ...(span === undefined ? {} : { range: span.id }),
    ...fedBy(p.feed),
    currentA: p.collectorA,
    conditions: conditionsOf(p),
    window: windowOfNumber(e),
    ...timed(timeAt(b, p)),
    say: 'Turn the gain dial until the needle nulls, and read the dial.',
    why: `Gain at ${say(p.collectorA, 'A')} and about ${say(p.collectorV, 'V')}. If time runs out, bias to zero, let it cool, go on where the dial stands.`,
    odd: advise('noNull', 'ownCurrent', 'noCurrent', 'wrongWay', 'drifting'),
  }
}

function setSpan(g: Dial, e: Expected, point: number): readonly Step[] {
  const span = spanFor(g, e)
  if (span === undefined) return []
  return [
    {
      kind: 'set',
      id: `h-fe-${point}-span`,
      what: 'gain range',
      value: span.id,
      say: `Set the gain range to ${span.from} to ${span.to} (${span.id}).`,
      why: 'The narrowest span that holds what is expected reads best.',
    },
  ]
}

/** Collector current, where it can be read, and gain by the dial at a point. */
export function dialReadings(b: Bench, g: Dial, p: OperatingPoint, point: number): readonly PointReading[] {
  const e = expected(b, 'h_FE', conditionsOf(p))
  const range = rangeOfCurrent(b, p.feed, p.collectorA)
  const readsCurrent = rangesOf(b.tester, 'I_C').length > 0 && range !== undefined
  const first = readsCurrent ? [{ turn: [], read: readCollector(b, p, point, range) }] : []
  const turn = [...setSpan(g, e, point), setCollector(b, `h-fe-${point}-again`, p, true)]
  return [...first, { turn, read: readDial(b, g, p, point, e) }]
}
