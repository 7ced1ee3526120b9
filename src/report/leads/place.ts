import type { Base } from '#core/standin'

/** Where a lead leaves its case, px from the middle of it, seen from below; y goes down. */
export interface Pin {
  readonly name: string
  readonly x: number
  readonly y: number
}

/** Distances of the drawing, px. */
export const sizes = { ring: 34, body: 62, step: 42, axial: 84, pin: 11 } as const

const radians = (degrees: number): number => (degrees * Math.PI) / 180

/** The two pins of a bolted case, which stand nearer to its upper end, and the case itself at the lower bolt. */
const boltedSpots = [
  { x: 20, y: -12 },
  { x: -20, y: -12 },
  { x: 0, y: 58 },
] as const

/** Leads of a base as they stand when nothing is turned: round a circle the first one at the left, clockwise. */
export function pinsOf({ shape, leads }: Base): readonly Pin[] {
  const middle = (leads.length - 1) / 2
  switch (shape) {
    case 'line':
      return leads.map((name, i) => ({ name, x: (i - middle) * sizes.step, y: 0 }))
    case 'axial':
      return leads.map((name, i) => ({ name, x: (i === 0 ? -1 : 1) * sizes.axial, y: 0 }))
    case 'bolted':
      return leads.map((name, i) => ({ name, ...boltedSpots[i]! }))
    case 'ring':
      return leads.map((name, i) => {
        const at = radians(180 + i * 90)
        return { name, x: sizes.ring * Math.cos(at), y: sizes.ring * Math.sin(at) }
      })
  }
}

/** Pins turned by an angle, degrees, clockwise as seen. */
export function turned(pins: readonly Pin[], degrees: number): readonly Pin[] {
  const [c, s] = [Math.cos(radians(degrees)), Math.sin(radians(degrees))]
  return pins.map(({ name, x, y }) => ({ name, x: x * c - y * s, y: x * s + y * c }))
}

/** Angles a base may be turned by so that its leads reach the others: any for a round one, half round for the rest. */
const anglesOf = ({ shape }: Base): readonly number[] =>
  shape === 'ring' ? Array.from({ length: 24 }, (_, k) => 15 * k) : [0, 180]

/** Pairs of leads that change sides, and the least room between two neighbours. */
function judged(pins: readonly Pin[], holes: readonly Pin[]): { readonly changed: number; readonly room: number } {
  const at = new Map(pins.map((p) => [p.name, p.x]))
  let changed = 0
  let room = Number.POSITIVE_INFINITY
  holes.forEach((a, i) => {
    for (const b of holes.slice(i + 1)) {
      const [xa, xb] = [at.get(a.name) ?? 0, at.get(b.name) ?? 0]
      if ((a.x - b.x) * (xa - xb) < 0) changed++
      room = Math.min(room, Math.abs(xa - xb))
    }
  })
  return { changed, room }
}

/** How far to turn a base so that as few of its leads as can be cross on their way, with as much room as can be. */
export function turnOf(base: Base, holes: readonly Pin[]): number {
  let best = { degrees: 0, ...judged(pinsOf(base), holes) }
  for (const degrees of anglesOf(base)) {
    const found = { degrees, ...judged(turned(pinsOf(base), degrees), holes) }
    if (found.changed < best.changed || (found.changed === best.changed && found.room > best.room + 1e-6)) best = found
  }
  return best.degrees
}
