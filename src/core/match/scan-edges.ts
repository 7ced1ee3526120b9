import { label, type MatchingState } from './matching-state.ts'

/** Looks at every edge of a vertex that has become plus, at the time its price starts to rise. */
export function scanPlus(s: MatchingState, u: number): void {
  const { top, label: labels, price, mate, base, search } = s
  const { start, to, cost } = s.graph
  const { reach, reached, queue } = search
  const own = price[u]!
  if (s.singleCost - own < search.endTime) setEnd(s, s.singleCost - own, u, -1)
  const node = top[u]!
  const end = start[u + 1]!
  for (let slot = start[u]!; slot < end; slot++) {
    const v = to[slot]!
    const other = top[v]!
    if (other === node) continue
    const what = labels[other]!
    if (what === label.minus) continue
    const gap = cost[slot]! - own - price[v]!
    if (what === label.plus) {
      if (gap * 0.5 < search.endTime) queue.push(gap * 0.5, slot)
    } else if (gap < search.endTime) {
      if (mate[base[other]!]! < 0) setEnd(s, gap, u, v)
      else if (gap < reach[v]!) {
        if (reach[v] === Number.POSITIVE_INFINITY) reached.push(v)
        reach[v] = gap
        queue.push(gap, slot)
      }
    }
  }
}

/** Looks at the edges from the tree to a vertex that has fallen out of it. */
export function scanOutside(s: MatchingState, v: number): void {
  const { top, label: labels, price, search } = s
  const { start, to, cost } = s.graph
  search.reach[v] = Number.POSITIVE_INFINITY
  const end = start[v + 1]!
  for (let slot = start[v]!; slot < end; slot++) {
    const u = to[slot]!
    if (labels[top[u]!] !== label.plus) continue
    const time = cost[slot]! - price[u]! - price[v]!
    if (time >= search.endTime || time >= search.reach[v]!) continue
    search.reach[v] = time
    search.reached.push(v)
    search.queue.push(time, slotBack(s, slot))
  }
}

/** The slot of the same edge seen from its other end. */
function slotBack(s: MatchingState, slot: number): number {
  const { start, to, from } = s.graph
  const v = from[slot]!
  const u = to[slot]!
  for (let back = start[u]!; back < start[u + 1]!; back++) if (to[back] === v) return back
  throw new RangeError('an edge has only one end')
}

function setEnd(s: MatchingState, time: number, from: number, to: number): void {
  s.search.endTime = time
  s.search.endFrom = from
  s.search.endTo = to
}
