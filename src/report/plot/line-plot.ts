import { html, type Markup, proseSvg } from '#report/typeset'
import { bottomAxis, drawing, leftAxis, px, textWidth } from './frame.ts'
import { type Axis, layScale, place, type Scale } from './scale.ts'
import { seriesColours } from './style.ts'

/** One line of a plot: points, joined or not. */
export interface Line {
  /** Number of the series; it gives colour and shape of mark. */
  readonly series: number
  readonly points: readonly { readonly x: number; readonly y: number }[]
  readonly draw: 'line' | 'points' | 'both'
  readonly isDashed?: boolean
  /** Written at the end of the line, where there is room: a step of a family. */
  readonly label?: string
}

/** What lies between two lines: the interval of a law. */
export interface Swath {
  readonly series: number
  readonly points: readonly { readonly x: number; readonly low: number; readonly high: number }[]
}

/** An entry of the key. */
export interface KeyEntry {
  readonly series: number
  readonly isDashed?: boolean
  /** Shown with its mark, its line or its swath. */
  readonly draw: Line['draw'] | 'swath' | 'bound'
  readonly label: string
}

/** One pair of axes with what is drawn on it. */
export interface Panel {
  readonly x: Axis
  readonly y: Axis
  readonly lines: readonly Line[]
  readonly swaths?: readonly Swath[]
  /** Values of y at which a dotted line is drawn across. */
  readonly bounds?: readonly number[]
  readonly key?: readonly KeyEntry[]
  /** Whether the axis of y goes down to 0. */
  readonly isFromZero?: boolean
  /** Values that the axis of x holds as well, so that it agrees with another. */
  readonly reach?: readonly number[]
  /** Values that the axis of y holds as well. */
  readonly reachY?: readonly number[]
  /** Height of the axes, px. */
  readonly height?: number
}

/** Panels one below the other, as one drawing. */
export interface LinePlot {
  readonly title: string
  readonly desc: string
  readonly panels: readonly Panel[]
}

export interface LinePlotOptions {
  /** Width of the drawing, px; type keeps its size. */
  readonly width: number
}

export const linePlotDefaults = { width: 680 } as const satisfies LinePlotOptions

/** Up to this many points of a line carry a mark. */
const marked = 120

const left = 62
const right = 14
const head = 26
const foot = 42
const keyLine = 18

/** Curves on one pair of axes, or on several one below the other. */
export function linePlot(plot: LinePlot, options: Partial<LinePlotOptions> = {}): string {
  const { width } = { ...linePlotDefaults, ...options }
  let top = 0
  const end = width - right - labelRoom(plot.panels)
  const panels = plot.panels.map((panel) => {
    const keys = layKey(panel.key ?? [], width)
    const height = head + keys.lines * keyLine + (panel.height ?? Math.max(190, Math.round(width * 0.46))) + foot
    const drawn = html`<g transform="translate(0 ${px(top)})">${panelBody(panel, end, height, keys)}</g>`
    top += height + 8
    return drawn
  })
  return drawing({ width, height: Math.max(1, top - 8) }, plot.title, plot.desc, panels)
}

/** Room to the right of all panels for the labels at the ends of lines; one for all, so that their axes agree. */
const labelRoom = (panels: readonly Panel[]): number =>
  panels
    .flatMap((p) => p.lines)
    .reduce((room, { label }) => Math.max(room, label === undefined ? 0 : textWidth(label) + 6), 0)

function panelBody(p: Panel, end: number, height: number, keys: LaidKey): Markup {
  const top = head + keys.lines * keyLine
  const bottom = height - foot
  const values = (side: 'x' | 'y'): readonly number[] => [
    ...p.lines.flatMap((l) => l.points.map((q) => q[side])),
    ...(side === 'x' ? (p.reach ?? []) : []),
    ...(side === 'y' ? [...(p.bounds ?? []), ...(p.reachY ?? []), ...(p.isFromZero === true ? [0] : [])] : []),
  ]
  const x = layScale(p.x, values('x'), { from: left, to: end, labels: end < 460 ? 4 : 8 })
  const y = layScale(p.y, values('y'), { from: bottom, to: top, labels: Math.max(3, Math.floor((bottom - top) / 30)) })
  const bounds = (p.bounds ?? []).map((v) => html`<path class="bound" d="M${px(left)} ${px(place(y, v))}H${px(end)}"/>`)
  const swaths = (p.swaths ?? []).map((s) => swath(s, x, y))
  const lines = p.lines.map((l) => line(l, x, y))
  return html`${leftAxis(p.y, y, left, end)}${bottomAxis(p.x, x, bottom, top)}${keys.body}${swaths}${bounds}${lines}${endLabels(p.lines, x, y)}`
}

/** Whether a value has a place on a scale. */
const isOn = (s: Scale, v: number): boolean => Number.isFinite(v) && (s.kind === 'linear' || v > 0)

function line(l: Line, x: Scale, y: Scale): Markup {
  const points = l.points.filter((p) => isOn(x, p.x) && isOn(y, p.y))
  const path = points.map((p, i) => `${i === 0 ? 'M' : 'L'}${px(place(x, p.x))} ${px(place(y, p.y))}`).join('')
  const dash = l.isDashed === true ? ' dashed' : ''
  const drawn = l.draw !== 'points' && html`<path class="line ${seriesClass(l.series)}${dash}" d="${path}"/>`
  const isMarked = l.draw === 'points' || (l.draw === 'both' && points.length <= marked)
  return html`${drawn}${
    isMarked &&
    marksOf(
      l.series,
      points.map((p) => [place(x, p.x), place(y, p.y)]),
    )
  }`
}

function swath({ series, points }: Swath, x: Scale, y: Scale): Markup {
  const used = points.filter((p) => isOn(x, p.x) && isOn(y, p.low) && isOn(y, p.high))
  const at = (p: { readonly x: number }, v: number): string => `${px(place(x, p.x))} ${px(place(y, v))}`
  const over = used.map((p) => at(p, p.high))
  const under = [...used].reverse().map((p) => at(p, p.low))
  return html`<path class="swath ${seriesClass(series)}" d="M${[...over, ...under].join('L')}Z"/>`
}

const seriesClass = (series: number): string => `s${series % seriesColours.length}`

/** Shapes of the marks of series around a point: disc, square, diamond, triangle, star of four, bar. */
const shapes = [
  'm-2.6 0a2.6 2.6 0 1 0 5.2 0a2.6 2.6 0 1 0 -5.2 0Z',
  'm-2.4 -2.4h4.8v4.8h-4.8Z',
  'm0 -3.6l3.2 3.6l-3.2 3.6l-3.2 -3.6Z',
  'm0 -3.4l3.4 5.8h-6.8Z',
  'm0 -3.8l1 2.8l2.8 1l-2.8 1l-1 2.8l-1 -2.8l-2.8 -1l2.8 -1Z',
  'm-3.4 -1.3h6.8v2.6h-6.8Z',
] as const

function marksOf(series: number, places: readonly (readonly [x: number, y: number])[]): Markup {
  const shape = shapes[series % shapes.length]!
  return html`<path class="point ${seriesClass(series)}" d="${places.map(([x, y]) => `M${px(x)} ${px(y)}${shape}`).join('')}"/>`
}

/** Labels to the right of the ends of lines; one that would run into another is left out. */
function endLabels(lines: readonly Line[], x: Scale, y: Scale): Markup {
  const taken: number[] = []
  const ends = lines.flatMap((l) => {
    const last = l.points.filter((p) => isOn(x, p.x) && isOn(y, p.y)).at(-1)
    return l.label === undefined || last === undefined
      ? []
      : [{ label: l.label, x: place(x, last.x), y: place(y, last.y) }]
  })
  const drawn = ends.map((e) => {
    if (taken.some((t) => Math.abs(t - e.y) < 12)) return undefined
    taken.push(e.y)
    return html`<text class="tag" x="${px(e.x + 6)}" y="${px(e.y + 4)}">${proseSvg(e.label)}</text>`
  })
  return html`${drawn}`
}

interface LaidKey {
  readonly lines: number
  readonly body: Markup
}

const sample = 22

/** The key above the axes: as many entries to a line as find room. */
function layKey(entries: readonly KeyEntry[], width: number): LaidKey {
  let at = left
  let row = 0
  const drawn = entries.map((e) => {
    const wide = sample + 6 + textWidth(e.label) + 16
    if (at > left && at + wide > width) {
      at = left
      row += 1
    }
    const x = at
    at += wide
    const y = head + row * keyLine
    return html`${keySample(e, x, y)}<text class="label" x="${px(x + sample + 6)}" y="${px(y + 4)}">${proseSvg(e.label)}</text>`
  })
  return { lines: entries.length === 0 ? 0 : row + 1, body: html`${drawn}` }
}

function keySample(e: KeyEntry, x: number, y: number): Markup {
  const dash = e.isDashed === true ? ' dashed' : ''
  if (e.draw === 'swath')
    return html`<path class="swath ${seriesClass(e.series)}" d="M${px(x)} ${px(y - 4)}h${sample}v8h-${sample}Z"/>`
  if (e.draw === 'bound') return html`<path class="bound" d="M${px(x)} ${px(y)}h${sample}"/>`
  const drawn =
    e.draw !== 'points' && html`<path class="line ${seriesClass(e.series)}${dash}" d="M${px(x)} ${px(y)}h${sample}"/>`
  return html`${drawn}${e.draw !== 'line' && marksOf(e.series, [[x + sample / 2, y]])}`
}
