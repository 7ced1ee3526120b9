import { html, type Markup, type Outcome, outcomes } from '#report/typeset'
import { layDates } from './date-scale.ts'
import { scattered } from './dense-rows.ts'
import { bottomAxis, drawing, leftAxis, markAt, px } from './frame.ts'
import { type Axis, layScale, place, type Scale } from './scale.ts'

export interface CoursePoint {
  /** Drawn beside the point where there is room for all; else only told. */
  readonly label?: string
  readonly x: number
  readonly y: number
  /** Interval of y, where it has one. */
  readonly low?: number
  readonly high?: number
  readonly outcome: Outcome
}

/** A line through places of the drawing, or across all of it where it has one place only. */
export interface CourseLine {
  readonly label?: string
  readonly kind: 'centre' | 'limit' | 'edge'
  readonly at: readonly (readonly [x: number, y: number])[]
}

/** The room between two lines; across all of the drawing where they have one place. */
export interface CourseBand {
  readonly low: readonly (readonly [x: number, y: number])[]
  readonly high: readonly (readonly [x: number, y: number])[]
}

/** Points along a quantity or along time, with lines and bands to hold them against. */
export interface CoursePlot {
  readonly title: string
  readonly desc: string
  /** `dates`: x is in days since 1970-01-01. */
  readonly x: Axis | 'dates'
  readonly y: Axis
  readonly points: readonly CoursePoint[]
  /** Joins the points in their order. */
  readonly isJoined?: boolean
  readonly lines: readonly CourseLine[]
  readonly bands: readonly CourseBand[]
}

export interface CoursePlotOptions {
  /** Width of the drawing, px; type keeps its size. */
  readonly width: number
}

export const coursePlotDefaults = { width: 680 } as const satisfies CoursePlotOptions

/** Difference plots, control charts, drift and calibration: they are one drawing. */
export function coursePlot(plot: CoursePlot, options: Partial<CoursePlotOptions> = {}): string {
  const { width } = { ...coursePlotDefaults, ...options }
  const height = Math.round(Math.max(240, width * 0.5))
  const left = 62
  const foot = height - 42
  const right = width - 14
  const lines = [...plot.lines.map((l) => l.at), ...plot.bands.flatMap((b) => [b.low, b.high])].flat()
  const xs = [...plot.points.map((p) => p.x), ...lines.map(([x]) => x)].filter(Number.isFinite)
  const ys = [...plot.points.flatMap((p) => [p.y, p.low ?? p.y, p.high ?? p.y]), ...lines.map(([, y]) => y)]
  const room = { from: left, to: right, labels: width < 480 ? 4 : 8 }
  const x = plot.x === 'dates' ? layDates(xs, room) : layScale(plot.x, xs, room)
  const y = layScale(plot.y, ys, { from: foot, to: 26, labels: Math.floor(foot / 30) })
  const axisOf = plot.x === 'dates' ? dateAxis : plot.x
  return drawing({ width, height }, plot.title, plot.desc, [
    plot.bands.map((b) => bandPath(b, x, y)),
    leftAxis(plot.y, y, left, right),
    bottomAxis(axisOf, x, foot, 26),
    plot.lines.map((l) => linePath(l, x, y)),
    plot.isJoined === true ? trace(plot.points, x, y) : undefined,
    labels(plot.lines, x, y),
    marks(plot.points, x, y),
  ])
}

const dateAxis: Axis = { symbol: '', name: 'date', unit: '1', kind: 'linear' }

type Places = readonly (readonly [number, number])[]

/** Places on the drawing; a single one reaches from side to side. */
const across = (at: Places, x: Scale, y: Scale): Places =>
  at.length === 1
    ? [
        [x.from, place(y, at[0]![1])],
        [x.to, place(y, at[0]![1])],
      ]
    : at.map(([a, b]) => [place(x, a), place(y, b)])

const pathOf = (places: Places): string => places.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${px(a)} ${px(b)}`).join('')

const bandPath = (b: CourseBand, x: Scale, y: Scale): Markup =>
  html`<path class="band" d="${pathOf([...across(b.low, x, y), ...[...across(b.high, x, y)].reverse()])}Z"/>`

const linePath = (l: CourseLine, x: Scale, y: Scale): Markup =>
  html`<path class="${l.kind}" d="${pathOf(across(l.at, x, y))}"/>`

const trace = (points: readonly CoursePoint[], x: Scale, y: Scale): Markup =>
  html`<path class="trace" d="${pathOf(points.map((p) => [place(x, p.x), place(y, p.y)]))}"/>`

/** Above this number of points they are dots without intervals. */
const mostShapes = 300

function marks(points: readonly CoursePoint[], x: Scale, y: Scale): Markup {
  if (points.length > mostShapes)
    return html`${outcomes.map((o) =>
      scattered(
        o,
        points.filter((p) => p.outcome === o).map((p) => [place(x, p.x), place(y, p.y)] as const),
        3,
      ),
    )}`
  const spans = points.flatMap((p) =>
    p.low === undefined || p.high === undefined
      ? []
      : [html`<path class="interval thin" d="M${px(place(x, p.x))} ${px(place(y, p.low))}V${px(place(y, p.high))}"/>`],
  )
  return html`${spans}${points.map((p) => markAt(p.outcome, place(x, p.x), place(y, p.y)))}`
}

/** Names of lines above their right ends, where the one before leaves room. */
function labels(lines: readonly CourseLine[], x: Scale, y: Scale): Markup {
  const taken: number[] = []
  return html`${lines.map((l) => {
    if (l.label === undefined) return undefined
    const [, end] = across(l.at, x, y).at(-1)!
    if (taken.some((t) => Math.abs(t - end) < 12)) return undefined
    taken.push(end)
    return html`<text class="limit-label" x="${px(x.to)}" y="${px(end - 4)}" text-anchor="end">${l.label}</text>`
  })}`
}
