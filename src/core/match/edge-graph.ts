/**
 * A graph with a cost on every edge, as typed arrays: the edges of vertex v are slots `start[v]` to `start[v + 1] - 1`,
 * each leading to `to[slot]` at `cost[slot]`. Every edge stands in it twice, once from each end.
 */
export interface EdgeGraph {
  readonly count: number
  readonly start: Int32Array
  readonly to: Int32Array
  readonly from: Int32Array
  readonly cost: Float64Array
}

/** Edges as three columns; each pair of vertices at most once. */
export interface EdgeList {
  readonly a: ArrayLike<number>
  readonly b: ArrayLike<number>
  readonly cost: ArrayLike<number>
  readonly length: number
}

/** Makes a graph of edges. Slots of a vertex follow the order of the edges. */
export function edgeGraph(count: number, edges: EdgeList): EdgeGraph {
  const { a, b, cost, length } = edges
  const start = new Int32Array(count + 1)
  for (let e = 0; e < length; e++) {
    start[a[e]! + 1]!++
    start[b[e]! + 1]!++
  }
  for (let v = 0; v < count; v++) start[v + 1]! += start[v]!
  const next = start.slice(0, count)
  const to = new Int32Array(2 * length)
  const from = new Int32Array(2 * length)
  const costs = new Float64Array(2 * length)
  for (let e = 0; e < length; e++) {
    const u = a[e]!
    const v = b[e]!
    const i = next[u]!++
    const j = next[v]!++
    to[i] = v
    from[i] = u
    costs[i] = cost[e]!
    to[j] = u
    from[j] = v
    costs[j] = cost[e]!
  }
  return { count, start, to, from, cost: costs }
}
