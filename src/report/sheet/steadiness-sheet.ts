import { FaultError } from '#core/fault'
import { dayOf } from '#core/numeric'
import { printMeasured, printPlain } from '#core/quantity'
import {
  type CheckStandard,
  type ControlChart,
  chartRules,
  type DriftBounds,
  type StandardHealth,
  type Steadiness,
  steadiness,
  yearsAhead,
} from '#core/upkeep'
import type { CourseLine, CoursePlot } from '#report/plot'
import type { Sheet, SheetPlot, SheetTable } from './sheet.ts'

const outcomeOf = { steady: 'conforms', drifting: 'undecided', 'out of control': 'does not conform' } as const

/** The page of a tester's check standards. */
export function steadinessSheet(title: string, all: readonly Steadiness[], bounds: DriftBounds): Sheet {
  return {
    kind: 'Check standards and drift',
    title,
    lead: all.map((s) => ({ outcome: outcomeOf[s.word], say: steadinessSentence(s) })),
    facts: [
      ['Standards', all.map((s) => `${s.part}, read ${s.chart.points.length} times`).join('; ')],
      ['Rules', `${all[0]?.chart.rules}: ${chartRules[all[0]?.chart.rules ?? 'nelson'].length} patterns`],
    ],
    blocks: all.flatMap((s) => [chartBlock(s, bounds), ...signalBlock(s), pointsBlock(s)]),
    notes: [
      'Limits lie three standard deviations from the centre; the spread comes from readings taken together, or from step to step (ISO 7870-2:2013). A point inside them is no proof: it is a lack of alarm.',
      ...new Set(all.flatMap((s) => s.chart.signals.map((g) => `Rules: ${g.source}.`))),
      `The drift is a straight line by least squares; no date further than ${yearsAhead} years ahead is given.`,
      ...all
        .filter((s) => s.chart.baseline < 20)
        .map((s) => `${s.part}: the limits come from ${s.chart.baseline} groups; 20 or more make them firm.`),
    ],
  }
}

/** What a check standard says of its tester, in a sentence or three. */
export function steadinessSentence(s: Steadiness): string {
  const { drift, chart } = s
  const perYear = `${printMeasured(drift.perYear.value, drift.perYear.u, s.unit)} a year`
  const last = chart.signals.at(-1)
  const word = {
    steady: `${s.part}: the tester is steady.`,
    drifting: `${s.part}: the tester drifts, though every point is inside the limits.`,
    'out of control': `${s.part}: the tester is out of control.`,
  }[s.word]
  const signal = last === undefined ? '' : ` On ${last.at.slice(0, 10)} ${last.say}.`
  const slope = drift.isSeen ? ` It moves by ${perYear}.` : ` No drift is seen (${perYear}).`
  return `${word}${signal}${slope}${outsideText(s)}`
}

/** A chart needs so many days. */
const leastDays = 3

/** What a check standard says of the health of its tester; where it says nothing yet, why. */
export function standardHealth(standard: CheckStandard, bounds: DriftBounds): StandardHealth {
  const { part, groups } = standard
  if (groups.length < leastDays)
    return {
      part,
      word: 'too few',
      say: `${part} says nothing yet: it was read on ${groups.length === 1 ? '1 day' : `${groups.length} days`}, and three are wanted.`,
    }
  try {
    const found = steadiness(standard, {}, bounds)
    return { part, word: found.word, say: steadinessSentence(found) }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    return { part, word: 'too few', say: `${part} says nothing yet: ${error.message}` }
  }
}

function outsideText({ drift }: Steadiness): string {
  const o = drift.outside
  if (o === undefined) return ''
  if (o.isNow) return ' It is outside its bounds now.'
  if (o.earliest === undefined)
    return ` It stays inside its bounds for the next ${yearsAhead} years, if it goes on as it does.`
  const expected = o.expected === undefined ? '' : `; the line itself gets there on ${o.expected}`
  return ` It may be outside its bounds from ${o.earliest}${expected}. Check again before.`
}

function chartBlock(s: Steadiness, bounds: DriftBounds): SheetPlot {
  return {
    kind: 'plot',
    caption: `${s.part}: mean of each day, its control limits (full lines) and the drift with its 95 % interval (shaded).`,
    plot: controlPlot(s, bounds),
  }
}

const signalsAt = (c: ControlChart, at: string): boolean => c.signals.some((g) => g.at === at)

function controlPlot(s: Steadiness, bounds: DriftBounds): CoursePlot {
  const { chart, drift } = s
  const days = chart.points.map((p) => dayOf(p.at))
  const [first, last] = [Math.min(...days), Math.max(...days)]
  const along = Array.from({ length: 13 }, (_, i) => first + ((last - first) * i) / 12)
  const limit = (side: 0 | 1, label: string): CourseLine => ({
    kind: 'limit',
    label,
    at: chart.points.map((p, i) => [days[i]!, p.limits[side]] as const),
  })
  const bound = (label: string, value: number | undefined): readonly CourseLine[] =>
    value === undefined ? [] : [{ kind: 'edge', label, at: [[first, value]] }]
  const averages = chart.points.flatMap((p, i) =>
    p.average === undefined ? [] : [[days[i]!, p.average.value] as const],
  )
  return {
    title: `Control chart of ${s.part}`,
    desc: `${chart.points.length} points, ${chart.signals.length} alarms. Centre ${printPlain(chart.centre, s.unit)}.`,
    x: 'dates',
    y: { symbol: '', name: `reading of ${s.part}`, unit: s.unit, kind: 'linear' },
    points: chart.points.map((p, i) => ({
      x: days[i]!,
      y: p.mean,
      outcome: signalsAt(chart, p.at) ? ('does not conform' as const) : ('conforms' as const),
    })),
    isJoined: true,
    lines: [
      { kind: 'centre', label: 'centre', at: [[first, chart.centre]] },
      limit(1, 'upper limit'),
      limit(0, 'lower limit'),
      ...bound('bound', bounds.high),
      ...bound('bound', bounds.low),
      ...(averages.length === 0 ? [] : [{ kind: 'edge' as const, label: 'moving average', at: averages }]),
    ],
    bands: [
      {
        low: along.map((d) => [d, drift.lineAt(d).low] as const),
        high: along.map((d) => [d, drift.lineAt(d).high] as const),
      },
    ],
  }
}

function signalBlock({ part, chart }: Steadiness): readonly SheetTable[] {
  const dates = [...new Set(chart.signals.map((g) => g.at))]
  if (dates.length === 0) return []
  const seenOn = (at: string): string =>
    chart.signals
      .filter((g) => g.at === at)
      .map((g) => g.say)
      .join('; ')
  return [
    {
      kind: 'table',
      caption: `Alarms of ${part}`,
      head: ['date', 'what was seen'],
      rows: dates.map((at) => [at.slice(0, 10), seenOn(at)]),
    },
  ]
}

function pointsBlock(s: Steadiness): SheetTable {
  const value = (x: number): string => printPlain(x, s.unit)
  return {
    kind: 'table',
    caption: `Points of ${s.part}: ${s.chart.kind}`,
    head: ['date', '>readings', '>mean', '>lower limit', '>upper limit', '>spread'],
    rows: s.chart.points.map((p) => [
      p.at.slice(0, 10),
      String(p.count),
      value(p.mean),
      value(p.limits[0]),
      value(p.limits[1]),
      p.spread === undefined ? '' : value(p.spread),
    ]),
  }
}
