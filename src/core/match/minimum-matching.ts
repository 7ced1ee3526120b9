import { type EdgeGraph, type EdgeList, edgeGraph } from './edge-graph.ts'
import { drop, makeOutermost } from './grow-tree.ts'
import { growTrees } from './matching-search.ts'
import { freshState, type MatchingState, ringOf } from './matching-state.ts'

/** Starts a matching: the cheap prices every vertex can have, and what they match at once. */
export function startMatching(graph: EdgeGraph, singleCost: number): MatchingState {
  const s = freshState(graph, singleCost)
  const { start, cost } = graph
  for (let v = 0; v < s.n; v++) {
    let least = 2 * singleCost
    for (let slot = start[v]!; slot < start[v + 1]!; slot++) if (cost[slot]! < least) least = cost[slot]!
    s.price[v] = Math.floor(least / 2)
  }
  for (let v = 0; v < s.n; v++) if (s.mate[v]! < 0) raise(s, v)
  return s
}

/** Raises the price of a single vertex as far as it goes, and matches it where that meets another single one. */
function raise(s: MatchingState, v: number): void {
  const { start, to, cost } = s.graph
  let least = s.singleCost
  let mate = -1
  for (let slot = start[v]!; slot < start[v + 1]!; slot++) {
    const u = to[slot]!
    const room = cost[slot]! - s.price[u]!
    if (room > least || (room === least && mate >= 0)) continue
    if (room < least) mate = -1
    least = room
    if (s.mate[u]! < 0) mate = u
  }
  s.price[v] = least
  if (mate < 0) return
  s.mate[v] = mate
  s.mate[mate] = v
}

/**
 * Brings a matching to the least cost: the sum of its edges and of `singleCost` for every vertex left single.
 *
 * @param keepOn asked now and then; false leaves the matching as it is, still right in its prices
 * @returns whether it is complete
 */
export function completeMatching(s: MatchingState, keepOn: (left: number) => boolean = () => true): boolean {
  const roots: number[] = []
  for (let v = 0; v < s.n; v++) {
    if (s.mate[v]! >= 0 || s.base[s.node[s.top[v]!]!] !== v || s.price[v]! >= s.singleCost) continue
    dissolveAround(s, v)
    // even prices at all roots, so that two trees meet at a whole number
    s.price[v] = 2 * Math.floor(s.price[v]! / 2)
    roots.push(v)
  }
  return roots.length === 0 || growTrees(s, roots, keepOn)
}

/** Room left by an edge between its cost and the prices of its ends, blossoms around both counted in. */
export function slackOf(s: MatchingState, u: number, v: number, cost: number): number {
  let slack = cost - s.price[u]! - s.price[v]!
  if (slack >= 0 || s.node[s.top[u]!]! !== s.node[s.top[v]!]!) return slack
  const mark = markAround(s, u)
  let node = s.parent[v]!
  while (node >= 0 && s.search.mark[node] !== mark) node = s.parent[node]!
  for (; node >= 0; node = s.parent[node]!) slack += 2 * s.half[node]!
  return slack
}

/** Marks the blossoms around a vertex; gives the mark. */
function markAround(s: MatchingState, v: number): number {
  const mark = ++s.search.marks
  for (let node = s.parent[v]!; node >= 0; node = s.parent[node]!) s.search.mark[node] = mark
  return mark
}

/** Adds edges that were left out. Where one is cheaper than the prices allow, its first end is freed to be matched anew. */
export function addEdges(s: MatchingState, edges: EdgeList): void {
  const { a, b, cost, length } = edges
  const all = { a: [] as number[], b: [] as number[], cost: [] as number[] }
  const { from, to, cost: costs } = s.graph
  for (let slot = 0; slot < from.length; slot++)
    if (from[slot]! < to[slot]!) {
      all.a.push(from[slot]!)
      all.b.push(to[slot]!)
      all.cost.push(costs[slot]!)
    }
  for (let e = 0; e < length; e++) {
    all.a.push(a[e]!)
    all.b.push(b[e]!)
    all.cost.push(cost[e]!)
  }
  s.graph = edgeGraph(s.n, { ...all, length: all.a.length })
  for (let e = 0; e < length; e++) {
    if (slackOf(s, a[e]!, b[e]!, cost[e]!) >= 0) continue
    free(s, a[e]!)
    const slack = cost[e]! - s.price[a[e]!]! - s.price[b[e]!]!
    if (slack < 0) s.price[a[e]!]! += slack
  }
}

/** Takes apart the blossoms around a vertex and leaves it single; what it was matched with too. */
function free(s: MatchingState, v: number): void {
  dissolveAround(s, v)
  unmatch(s, v)
}

function unmatch(s: MatchingState, v: number): void {
  const mate = s.mate[v]!
  if (mate < 0) return
  s.mate[v] = -1
  s.mate[mate] = -1
}

/**
 * Takes the blossoms around a vertex apart without breaking a price: those inside fall by what all around them had, and
 * their bases lose their mates. From the outside in, so that each vertex is met once however deep they lie.
 */
function dissolveAround(s: MatchingState, v: number): void {
  const around: number[] = []
  for (let node = s.parent[v]!; node >= 0; node = s.parent[node]!) around.push(node)
  let fall = 0
  for (let node = around.pop(); node !== undefined; node = around.pop()) {
    fall += s.half[node]!
    unmatch(s, s.base[node]!)
    const inner = around.at(-1) ?? v
    for (const child of ringOf(s, node).nodes) {
      if (child === inner && child >= s.n) continue
      for (const w of makeOutermost(s, child)) s.price[w]! -= fall
    }
    drop(s, node)
  }
}
