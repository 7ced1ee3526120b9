import type { Scale } from '#report/plot'
import { place } from '#report/plot'
import { marks, outcomes } from '#report/typeset'
import { outcomeNumbers } from './outcome.ts'
import type { Parts } from './parts.ts'

/** Points of a cloud on the drawing: place, outcome and row of each. */
export interface Cloud {
  readonly x: Float32Array
  readonly y: Float32Array
  readonly outcome: Uint8Array
  readonly rows: Int32Array
  readonly count: number
}

/** Lays the rows that have both values onto the drawing. */
export function cloudOf(
  parts: Parts,
  rows: Int32Array,
  values: readonly [x: Float64Array, y: Float64Array],
  scales: readonly [x: Scale, y: Scale],
): Cloud {
  const [xs, ys] = values
  const outcomeOf = outcomeNumbers(parts)
  const cloud = {
    x: new Float32Array(rows.length),
    y: new Float32Array(rows.length),
    outcome: new Uint8Array(rows.length),
    rows: new Int32Array(rows.length),
    count: 0,
  }
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!
    const [vx, vy] = [xs[row]!, ys[row]!]
    if (!isPlaced(vx, scales[0]) || !isPlaced(vy, scales[1])) continue
    cloud.x[cloud.count] = place(scales[0], vx)
    cloud.y[cloud.count] = place(scales[1], vy)
    cloud.outcome[cloud.count] = outcomeOf(row)
    cloud.rows[cloud.count] = row
    cloud.count += 1
  }
  return cloud
}

export const isPlaced = (v: number, s: Scale): boolean => Number.isFinite(v) && (s.kind === 'linear' || v > 0)

/** Up to this many points each is drawn with the shape of its outcome; above, as a dot. */
const shaped = 1500

/** Draws the cloud; chosen points last and with a ring. */
export function drawCloud(canvas: HTMLCanvasElement, cloud: Cloud, chosen: ReadonlySet<number>): void {
  const g = canvas.getContext('2d')
  if (g === null) return
  const ratio = window.devicePixelRatio
  const [width, height] = [canvas.clientWidth, canvas.clientHeight]
  canvas.width = Math.round(width * ratio)
  canvas.height = Math.round(height * ratio)
  g.scale(ratio, ratio)
  const colour = coloursOf(canvas)
  g.globalAlpha = cloud.count > 20_000 ? 0.35 : cloud.count > shaped ? 0.6 : 1
  if (chosen.size > 0) g.globalAlpha *= 0.35
  for (let o = 0; o < outcomes.length; o++) drawOutcome(g, cloud, o, colour, (row) => !chosen.has(row))
  if (chosen.size === 0) return
  g.globalAlpha = 1
  for (let o = 0; o < outcomes.length; o++) drawOutcome(g, cloud, o, colour, (row) => chosen.has(row))
  if (cloud.count <= shaped || chosen.size <= 300) rings(g, cloud, chosen, colour('accent'))
}

type Colour = (name: string) => string

const coloursOf = (at: Element): Colour => {
  const style = getComputedStyle(at)
  return (name) => style.getPropertyValue(`--${name}`).trim()
}

function drawOutcome(
  g: CanvasRenderingContext2D,
  cloud: Cloud,
  o: number,
  colour: Colour,
  takes: (row: number) => boolean,
): void {
  const mark = marks[outcomes[o]!]
  g.fillStyle = colour(mark.colour)
  g.strokeStyle = g.fillStyle
  const isShaped = cloud.count <= shaped
  const path = new Path2D(mark.path)
  for (let i = 0; i < cloud.count; i++) {
    if (cloud.outcome[i] !== o || !takes(cloud.rows[i]!)) continue
    const [x, y] = [cloud.x[i]!, cloud.y[i]!]
    if (!isShaped) g.fillRect(x - 1, y - 1, 2, 2)
    else drawMark(g, path, mark.draw, x, y)
  }
}

function drawMark(g: CanvasRenderingContext2D, path: Path2D, draw: 'fill' | 'stroke' | 'half', x: number, y: number) {
  g.save()
  g.translate(x, y)
  g.lineWidth = draw === 'half' ? 1.2 : 1.9
  if (draw !== 'stroke') g.fill(path, draw === 'half' ? 'evenodd' : 'nonzero')
  if (draw !== 'fill') g.stroke(path)
  g.restore()
}

function rings(g: CanvasRenderingContext2D, cloud: Cloud, chosen: ReadonlySet<number>, colour: string): void {
  g.strokeStyle = colour
  g.lineWidth = 1.5
  for (let i = 0; i < cloud.count; i++) {
    if (!chosen.has(cloud.rows[i]!)) continue
    g.beginPath()
    g.arc(cloud.x[i]!, cloud.y[i]!, 7, 0, 2 * Math.PI)
    g.stroke()
  }
}

/** The point nearest to a place, not farther than `within` px. */
export function nearest(cloud: Cloud, x: number, y: number, within = 12): number | undefined {
  let best = within * within
  let found: number | undefined
  for (let i = 0; i < cloud.count; i++) {
    const d = (cloud.x[i]! - x) ** 2 + (cloud.y[i]! - y) ** 2
    if (d < best) {
      best = d
      found = i
    }
  }
  return found
}
