import { html, type Markup, type Outcome, proseSvg } from '#report/typeset'
import { denseRows } from './dense-rows.ts'
import { bottomAxis, drawing, fitted, lineHeight, markAt, px, textWidth } from './frame.ts'
import { type Axis, layScale, place, type Scale } from './scale.ts'

/** One part on the plot: its value and 95 % interval. */
export interface IntervalRow {
  readonly label: string
  readonly value: number
  readonly low: number
  readonly high: number
  readonly outcome: Outcome
}

/** Parts held against the same limit. */
export interface IntervalGroup {
  /** Part type. */
  readonly label: string
  /** Conditions of the limit: `I_C 10 mA, V_CE 1 V`. */
  readonly at: string
  /** With the words to stand beside each line, number and unit. */
  readonly limits: readonly LimitLine[]
  readonly rows: readonly IntervalRow[]
}

export interface LimitLine {
  readonly kind: 'min' | 'max'
  readonly value: number
  readonly label: string
}

/** Values and intervals of many parts against their limits. */
export interface IntervalPlot {
  readonly title: string
  readonly desc: string
  readonly axis: Axis
  readonly groups: readonly IntervalGroup[]
}

export const intervalPlotDefaults = {
  /** Width of the drawing, px; type keeps its size. */
  width: 680,
  /** Above this number of parts the rows are drawn without tags, in order of value. */
  tagged: 60,
} as const satisfies IntervalPlotOptions

export interface IntervalPlotOptions {
  readonly width: number
  readonly tagged: number
}

const rowHeight = 19
const groupGap = 16

/** A dot and its interval for each part, one below the other, limits drawn as lines and what they allow as a band. */
export function intervalPlot(plot: IntervalPlot, options: Partial<IntervalPlotOptions> = {}): string {
  const o = { ...intervalPlotDefaults, ...options }
  const rows = plot.groups.flatMap((g) => g.rows)
  const isDense = rows.length > o.tagged
  const left = isDense ? 10 : tagWidth(rows, o.width)
  const values = [
    ...rows.flatMap((r) => [r.value, r.low, r.high]),
    ...plot.groups.flatMap((g) => g.limits.map((l) => l.value)),
  ]
  const scale = layScale(plot.axis, values, { from: left + 8, to: o.width - 14, labels: o.width < 480 ? 5 : 9 })
  let top = 2
  const placed = plot.groups.map((g) => {
    const height = isDense ? denseHeight(g, rows.length) : g.rows.length * rowHeight
    const first = top + 2 * lineHeight + 6
    top = first + height + groupGap
    return { ...g, first, height }
  })
  const bottom = top - groupGap + 8
  const foot = bottomAxis(plot.axis, scale, bottom, 2 + 2 * lineHeight + 6)
  const bands = placed.map((g) => allowed(g, scale))
  const groups = placed.map((g) => group(g, scale, isDense))
  return drawing({ width: o.width, height: bottom + 42 }, plot.title, plot.desc, [bands, foot, groups])
}

const tagWidth = (rows: readonly IntervalRow[], width: number): number =>
  Math.min(Math.max(...rows.map((r) => textWidth(r.label) + 6), 24), width * 0.28)

/** Dense groups share a drawing of bounded height by their number of parts. */
const denseHeight = (g: IntervalGroup, all: number): number =>
  Math.max(24, (g.rows.length / all) * Math.min(560, all * 5))

/** A group with its place on the drawing. */
interface PlacedGroup extends IntervalGroup {
  /** Top of its rows, px. */
  readonly first: number
  readonly height: number
}

function group(g: PlacedGroup, s: Scale, isDense: boolean): Markup {
  const label = html`<text class="group" x="0" y="${px(g.first - 24)}">${g.label}${g.at !== '' && html`<tspan class="at" dx="8">at ${proseSvg(g.at)}</tspan>`}</text>`
  const rows = isDense
    ? denseRows(g.rows, s, g.first, g.height)
    : html`${g.rows.map((r, i) => row(r, s, g.first + (i + 0.5) * rowHeight))}`
  return html`<g>${label}${limitLines(g, s)}${rows}</g>`
}

/** What the limits allow, as a band behind all else. */
function allowed(g: PlacedGroup, s: Scale): Markup {
  if (g.limits.length === 0) return html``
  const min = g.limits.find((l) => l.kind === 'min')
  const max = g.limits.find((l) => l.kind === 'max')
  const from = min === undefined ? s.from : place(s, min.value)
  const to = max === undefined ? s.to : place(s, max.value)
  return html`<rect class="allowed" x="${px(from)}" y="${px(g.first)}" width="${px(Math.max(0, to - from))}" height="${px(g.height)}"/>`
}

/** Limit lines, their labels inside the band where there is room, else outside it. */
function limitLines(g: PlacedGroup, s: Scale): Markup {
  const ends = g.limits.map((l) => place(s, l.value))
  const widths = g.limits.map((l) => textWidth(l.label) + 8)
  const isNarrow = g.limits.length === 2 && Math.abs(ends[1]! - ends[0]!) < widths[0]! + widths[1]!
  const lines = g.limits.map((l, i) => {
    const x = ends[i]!
    const goesRight = hasRoom(s, x, widths[i]!, (l.kind === 'min') !== isNarrow)
    const anchor = goesRight ? 'start' : 'end'
    return html`<path class="limit" d="M${px(x)} ${px(g.first - 12)}V${px(g.first + g.height)}"/><text class="limit-label" x="${px(x + (goesRight ? 4 : -4))}" y="${px(g.first - 4)}" text-anchor="${anchor}">${l.label}</text>`
  })
  return html`${lines}`
}

/** Whether a label goes to the right of its line: as wished, unless it would leave the drawing there. */
function hasRoom(s: Scale, x: number, width: number, wishRight: boolean): boolean {
  if (wishRight) return x + width <= s.to + 10
  return x - width < 0
}

function row(r: IntervalRow, s: Scale, y: number): Markup {
  const tag = html`<text class="tag" x="${px(s.from - 8)}" y="${px(y + 4)}" text-anchor="end">${fitted(r.label, s.from - 8)}</text>`
  return html`<g>${tag}${interval(r, s, y)}${markAt(r.outcome, place(s, r.value), y)}</g>`
}

/** The interval as a line; an arrow where it goes on beyond the drawing. */
function interval(r: IntervalRow, s: Scale, y: number): Markup {
  const from = place(s, r.low)
  const to = place(s, r.high)
  const startsBelow = r.low < s.low
  const cap = (x: number): string => `M${px(x)} ${px(y - 3.5)}v7`
  const start = startsBelow ? `M${px(from + 5)} ${px(y - 4)}l-5 4l5 4` : cap(from)
  return html`<path class="interval" d="M${px(from)} ${px(y)}H${px(to)}${start}${cap(to)}"/>`
}
