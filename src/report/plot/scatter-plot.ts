import { html, type Markup, type Outcome, outcomes } from '#report/typeset'
import { scattered } from './dense-rows.ts'
import { bottomAxis, drawing, leftAxis, markAt, px, textWidth } from './frame.ts'
import { type Axis, layScale, place, type Scale } from './scale.ts'

/** A value and its 95 % interval. */
export interface Span {
  readonly value: number
  readonly low: number
  readonly high: number
}

export interface ScatterPoint {
  readonly label: string
  readonly x: Span
  readonly y: Span
  readonly outcome: Outcome
}

/** One parameter against another, a point for each part. */
export interface ScatterPlot {
  readonly title: string
  readonly desc: string
  readonly x: Axis
  readonly y: Axis
  readonly points: readonly ScatterPoint[]
}

export interface ScatterPlotOptions {
  /** Width of the drawing, px; type keeps its size. */
  readonly width: number
  /** Above this number of parts the points carry no tags and no intervals. */
  readonly tagged: number
}

export const scatterPlotDefaults = { width: 680, tagged: 60 } as const satisfies ScatterPlotOptions

/** A point for each part with its intervals as a cross, tags where they find room. */
export function scatterPlot(plot: ScatterPlot, options: Partial<ScatterPlotOptions> = {}): string {
  const o = { ...scatterPlotDefaults, ...options }
  const height = Math.round(Math.max(260, o.width * 0.58))
  const left = 62
  const foot = height - 42
  const isDense = plot.points.length > o.tagged
  const ends = (side: 'x' | 'y'): readonly number[] =>
    plot.points.flatMap((p) => (isDense ? [p[side].value] : [p[side].value, p[side].low, p[side].high]))
  const x = layScale(plot.x, ends('x'), { from: left, to: o.width - 14, labels: o.width < 480 ? 4 : 8 })
  const y = layScale(plot.y, ends('y'), { from: foot, to: 26, labels: Math.floor(foot / 30) })
  const axes = [leftAxis(plot.y, y, left, o.width - 14), bottomAxis(plot.x, x, foot, 26)]
  const body = isDense ? crowd(plot.points, x, y) : taggedPoints(plot.points, x, y, o.width)
  return drawing({ width: o.width, height }, plot.title, plot.desc, [axes, body])
}

function crowd(points: readonly ScatterPoint[], x: Scale, y: Scale): Markup {
  const of = (o: Outcome): readonly (readonly [number, number])[] =>
    points.filter((p) => p.outcome === o).map((p) => [place(x, p.x.value), place(y, p.y.value)] as const)
  return html`${outcomes.map((o) => scattered(o, of(o), 600 / points.length))}`
}

function taggedPoints(points: readonly ScatterPoint[], x: Scale, y: Scale, width: number): Markup {
  const crosses = points.map((p) => {
    const across = `M${px(place(x, p.x.low))} ${px(place(y, p.y.value))}H${px(place(x, p.x.high))}`
    const along = `M${px(place(x, p.x.value))} ${px(place(y, p.y.low))}V${px(place(y, p.y.high))}`
    return html`<path class="interval thin" d="${across}${along}"/>`
  })
  const shapes = points.map((p) => markAt(p.outcome, place(x, p.x.value), place(y, p.y.value)))
  return html`${crosses}${shapes}${tags(points, x, y, width)}`
}

interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom

/** Tags beside their points: right, left, above or below, wherever first there is room; none where there is not. */
function tags(points: readonly ScatterPoint[], x: Scale, y: Scale, width: number): Markup {
  const taken: Box[] = points.map((p) => around(place(x, p.x.value), place(y, p.y.value), 5))
  const drawn: Markup[] = []
  for (const p of points) {
    const at = [place(x, p.x.value), place(y, p.y.value)] as const
    const found = candidates(at, textWidth(p.label)).find(
      (c) =>
        c.left >= x.from &&
        c.right <= width &&
        c.top >= y.to &&
        c.bottom <= y.from &&
        !taken.some((t) => overlaps(t, c)),
    )
    if (found === undefined) continue
    taken.push(found)
    drawn.push(html`<text class="tag" x="${px(found.left)}" y="${px(found.bottom - 2.5)}">${p.label}</text>`)
  }
  return html`${drawn}`
}

const around = (x: number, y: number, r: number): Box => ({ left: x - r, right: x + r, top: y - r, bottom: y + r })

function candidates([x, y]: readonly [number, number], width: number): readonly Box[] {
  const box = (left: number, top: number): Box => ({ left, right: left + width, top, bottom: top + 12 })
  return [
    box(x + 8, y - 13),
    box(x + 8, y + 1),
    box(x - 8 - width, y - 13),
    box(x - 8 - width, y + 1),
    box(x - width / 2, y - 19),
    box(x - width / 2, y + 8),
  ]
}
