import type { Placed } from './place-parts.ts'
import type { MatchRequest } from './request.ts'
import { setCost } from './set-cost.ts'

/** Cells of the table over counts of sets, above which a given number of sets is left to the other ways. */
const mostCells = 4e7

/** Whether there is but one parameter, so that the best sets are neighbours in its order. */
export const isOneParameter = (p: Placed, { by, across, sets, size }: MatchRequest): boolean =>
  by.length === 1 &&
  across === undefined &&
  p.mates === undefined &&
  p.points.count * Math.min(sets ?? 1, p.points.count / size) <= mostCells

/**
 * The best sets by one parameter: as many as there can be or were asked for, at the least cost. With one parameter the
 * sets may be taken as neighbours in order, whatever the objective: of two sets that interleave, the lower and the upper
 * half are sets as near or nearer. So going once along the order is enough.
 *
 * @see W. D. Fisher, On grouping for maximum homogeneity, J. Amer. Statist. Assoc. 53 (1958) 789-798: contiguity
 */
export function setsInOrder(p: Placed, request: MatchRequest): readonly (readonly number[])[] {
  const { size, objective, sets: asked } = request
  const order = inOrder(p)
  const cost = Float64Array.from(order, (_, i) => {
    if (i + 1 < size || p.mayGo?.(order[i + 1 - size]!, order[i]!) === false) return Number.POSITIVE_INFINITY
    return setCost(p.points, order.slice(i + 1 - size, i + 1), objective)
  })
  const all = asManyAsCanBe(cost, size)
  const ends = asked === undefined || all.length <= asked ? all : soMany(cost, size, asked)
  return ends.map((end) => order.slice(end + 1 - size, end + 1).sort((a, b) => a - b))
}

/** Those that may not go together for their labels stand apart. */
function inOrder({ points, kinds }: Placed): number[] {
  const all = Array.from({ length: points.count }, (_, i) => i)
  return all.sort((i, j) => (kinds?.[i] ?? 0) - (kinds?.[j] ?? 0) || points.at[i]! - points.at[j]! || i - j)
}

/** Places at which sets end: most of them, then least cost. `cost[i]` is that of the set that ends at place i. */
function asManyAsCanBe(cost: Float64Array, size: number): number[] {
  const n = cost.length
  const count = new Int32Array(n + 1)
  const total = new Float64Array(n + 1)
  const takes = new Uint8Array(n + 1)
  for (let i = 1; i <= n; i++) {
    count[i] = count[i - 1]!
    total[i] = total[i - 1]!
    if (cost[i - 1] === Number.POSITIVE_INFINITY) continue
    const more = count[i - size]! + 1
    const sum = total[i - size]! + cost[i - 1]!
    if (more < count[i]! || (more === count[i] && sum >= total[i]!)) continue
    count[i] = more
    total[i] = sum
    takes[i] = 1
  }
  return unrolled(n, size, (i) => takes[i] === 1)
}

/** The same for a given number of sets, of which there are at least as many. */
function soMany(cost: Float64Array, size: number, asked: number): number[] {
  const n = cost.length
  const takes = new Uint8Array((n + 1) * (asked + 1))
  let before = new Float64Array(n + 1)
  for (let c = 1; c <= asked; c++) {
    const total = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY)
    for (let i = c * size; i <= n; i++) {
      const sum = before[i - size]! + cost[i - 1]!
      total[i] = Math.min(total[i - 1]!, sum)
      if (sum < total[i - 1]!) takes[c * (n + 1) + i] = 1
    }
    before = total
  }
  let left = asked
  return unrolled(n, size, (i) => left > 0 && takes[left * (n + 1) + i] === 1 && left-- > 0)
}

function unrolled(n: number, size: number, takes: (i: number) => boolean): number[] {
  const ends: number[] = []
  for (let i = n; i > 0; ) {
    if (takes(i)) {
      ends.push(i - 1)
      i -= size
    } else i--
  }
  return ends
}
