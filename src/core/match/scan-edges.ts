import { label, type MatchingState } from './matching-state.ts'

/** Looks at every edge of a vertex that has become plus, at the time its price starts to rise. */
export function scanPlus(s: MatchingState, u: number): void {
  const { top, node: nodes, label: labels, price } = s
  const { start, to, cost } = s.graph
  const { reach, queue, limit, root } = s.search
  const own = price[u]!
  const node = nodes[top[u]!]!
  const tree = root[node]!
  if (s.singleCost - own < limit[tree]!) {
    limit[tree] = s.singleCost - own
    queue.push(s.singleCost - own, to.length + u)
  }
  const end = start[u + 1]!
  for (let slot = start[u]!; slot < end; slot++) {
    const v = to[slot]!
    const other = nodes[top[v]!]!
    if (other === node) continue
    const what = labels[other]!
    if (what === label.minus) continue
    const gap = cost[slot]! - own - price[v]!
    if (what === label.plus) queue.push(gap * 0.5, slot)
    else if (gap < reach[v]!) {
      reach[v] = gap
      queue.push(gap, slot)
    }
  }
}

/** Looks at the edges from trees to a vertex that has fallen out of it. */
export function scanOutside(s: MatchingState, v: number): void {
  const { top, node: nodes, label: labels, price, search } = s
  const { start, to, cost } = s.graph
  search.reach[v] = Number.POSITIVE_INFINITY
  const end = start[v + 1]!
  for (let slot = start[v]!; slot < end; slot++) {
    const u = to[slot]!
    if (labels[nodes[top[u]!]!] !== label.plus) continue
    const time = cost[slot]! - price[u]! - price[v]!
    if (time >= search.reach[v]!) continue
    search.reach[v] = time
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
