import { isWithin, type Placed } from './place-parts.ts'
import type { MatchRequest } from './request.ts'

/** Sets whose parts stand in the order of the places. */
export interface PlacedSets {
  readonly sets: readonly (readonly number[])[]
  /** Cost of each set: how far its parts are from what is wanted in their places. */
  readonly costs: readonly number[]
}

/**
 * Sets that are not of like parts: each place wants values of its own, such as the gains of a cascade. As many sets as
 * can be (or were asked for) at the least cost in total, by shortest paths: to give a place one part more, a part from
 * the box goes to some place, one from there to another, and so on, whatever is cheapest.
 *
 * @see R. K. Ahuja, T. L. Magnanti, J. B. Orlin, Network Flows (1993), 9.7: successive shortest paths
 */
export function setsByPlace(p: Placed, request: MatchRequest): PlacedSets {
  const { size, sets: asked } = request
  const n = p.points.count
  const cost = Array.from({ length: size }, (_, place) =>
    Float64Array.from({ length: n }, (_, i) => costAt(p, request, place, i)),
  )
  const at = new Int32Array(n).fill(inBox)
  let whole = at.slice()
  let count = 0
  const most = Math.min(asked ?? n, Math.floor(n / size))
  while (count < most && cost.every((_, place) => giveOneMore(at, cost, place))) {
    count++
    whole = at.slice()
  }
  const rows = cost.map((own, place) =>
    Array.from({ length: n }, (_, i) => i)
      .filter((i) => whole[i] === place)
      .sort((i, j) => own[i]! - own[j]! || i - j),
  )
  const sets = Array.from({ length: count }, (_, k) => rows.map((row) => row[k]!))
  return { sets, costs: sets.map((set) => set.reduce((sum, i, place) => sum + cost[place]![i]!, 0)) }
}

const inBox = -1

function costAt(p: Placed, { by, places, objective }: MatchRequest, place: number, i: number): number {
  const { aim } = places![place]!
  let sum = 0
  for (const one of by) {
    const wanted = aim[one.name]
    if (wanted === undefined) continue
    const x = p.parts[i]!.values[one.name]!
    if (!isWithin(one, x, wanted)) return Number.POSITIVE_INFINITY
    const apart = (Math.abs(x - wanted) / one.scale) * one.weight
    sum += objective === 'sum-of-ranges' ? apart : apart * apart
  }
  return objective === 'sum-of-ranges' || objective === 'squared-deviations' ? sum : Math.sqrt(sum)
}

interface Step {
  readonly cost: number
  /** The part that moves, and from where; -1 is the box. */
  readonly part: number
  readonly from: number
}

/** Gives a place one part more at the least cost; false where none can be had. */
function giveOneMore(at: Int32Array, cost: readonly Float64Array[], place: number): boolean {
  const size = cost.length
  const best: Step[] = cost.map((own) => cheapest(at, inBox, (i) => own[i]!))
  // paths have at most as many steps as there are places
  for (let round = 1; round < size; round++)
    for (let from = 0; from < size; from++)
      for (let to = 0; to < size; to++) {
        if (to === from || best[from]!.cost === Number.POSITIVE_INFINITY) continue
        const step = cheapest(at, from, (i) => cost[to]![i]! - cost[from]![i]!)
        const sum = best[from]!.cost + step.cost
        if (sum < best[to]!.cost - 1e-12) best[to] = { ...step, cost: sum }
      }
  if (best[place]!.cost === Number.POSITIVE_INFINITY) return false
  for (let to = place; to !== inBox; ) {
    const { part, from } = best[to]!
    at[part] = to
    to = from
  }
  return true
}

function cheapest(at: Int32Array, from: number, costOf: (i: number) => number): Step {
  let part = -1
  let cost = Number.POSITIVE_INFINITY
  for (let i = 0; i < at.length; i++) {
    if (at[i] !== from) continue
    const c = costOf(i)
    if (c >= cost) continue
    cost = c
    part = i
  }
  return { cost, part, from }
}
