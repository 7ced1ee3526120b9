import type { Pin } from './place.ts'

type Point = readonly [x: number, y: number]

/** How far the gap of a lead that passes under another reaches to either side, px. */
const gapPx = 7

/** Points of a curve that leaves one place downwards and comes down on another. */
export function way(from: Pin, to: Pin): readonly Point[] {
  const bend = Math.max(40, (to.y - from.y) * 0.45)
  return Array.from({ length: 61 }, (_, k) => {
    const t = k / 60
    const [a, b, c, d] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t ** 2 * (1 - t), t ** 3]
    return [(a + b) * from.x + (c + d) * to.x, a * from.y + b * (from.y + bend) + c * (to.y - bend) + d * to.y] as const
  })
}

const apart = ([ax, ay]: Point, [bx, by]: Point): number => Math.hypot(ax - bx, ay - by)

/** Where two curves come nearest; nothing where they do not meet. */
function meeting(a: readonly Point[], b: readonly Point[]): Point | undefined {
  let best: { readonly at: Point; readonly far: number } | undefined
  for (const p of a) {
    const far = Math.min(...b.map((q) => apart(p, q)))
    if (best === undefined || far < best.far) best = { at: p, far }
  }
  return best !== undefined && best.far < 4 ? best.at : undefined
}

/** A curve as path data, with a gap where it passes under others. */
export function pathUnder(points: readonly Point[], over: readonly (readonly Point[])[]): string {
  const gaps = over.map((o) => meeting(points, o)).filter((p) => p !== undefined)
  let isDown = false
  let d = ''
  for (const p of points) {
    const isHidden = gaps.some((g) => apart(g, p) < gapPx)
    if (!isHidden) d += `${isDown ? 'L' : 'M'}${p[0].toFixed(1)} ${p[1].toFixed(1)}`
    isDown = !isHidden
  }
  return d
}
