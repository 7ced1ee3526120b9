import { closeRing, growTree, makePlus, openRing } from './grow-tree.ts'
import { label, type MatchingState, mateOf, verticesIn } from './matching-state.ts'
import { makeBase } from './rotate-blossom.ts'

/**
 * Grows an alternating tree from a single node until it reaches another single vertex, or a vertex that is as well left
 * single, and matches along the path found. Prices stay right all the way: it is the shortest such path.
 *
 * @see J. Edmonds, Maximum matching and a polyhedron with 0,1-vertices, J. Res. NBS 69B (1965) 125-130; the tree of one
 *   root at a time with its events in a queue, and prices put right only at the end, as W. Cook and A. Rohe, Computing
 *   minimum-weight perfect matchings, INFORMS J. Computing 11 (1999) 138-148
 */
export function matchFrom(s: MatchingState, root: number): void {
  const { search } = s
  search.endTime = Number.POSITIVE_INFINITY
  makePlus(s, root, 0)
  const { queue } = search
  while (queue.time < search.endTime) {
    const time = queue.time
    const event = queue.pop()
    if (event < 0) openWhereDue(s, -1 - event, time)
    else meet(s, event, time)
  }
  const { endTime, endFrom, endTo } = search
  matchAlong(s, endFrom, endTo)
  settle(s, endTime)
}

function openWhereDue(s: MatchingState, node: number, time: number): void {
  if (s.label[node] === label.minus && s.parent[node] === -1 && s.half[node] === time) openRing(s, node, time)
}

/** An edge becomes tight, unless what was seen of it is out of date. */
function meet(s: MatchingState, slot: number, time: number): void {
  const u = s.graph.from[slot]!
  const v = s.graph.to[slot]!
  const node = s.top[v]!
  if (s.top[u] === node) return
  const what = s.label[node]
  if (what === label.minus) return
  const gap = s.graph.cost[slot]! - s.price[u]! - s.price[v]!
  if (what === label.none) {
    if (gap === time) growTree(s, u, v, time)
  } else if (gap === 2 * time) closeRing(s, u, v, time)
}

/** Matches along the tree from its root to the edge (or the vertex, `to` being -1) at which the search ended. */
function matchAlong(s: MatchingState, from: number, to: number): void {
  if (to >= 0) {
    makeBase(s, s.top[to]!, to)
    s.mate[to] = from
  }
  let vertex = from
  let newMate = to
  for (;;) {
    const node = s.top[vertex]!
    const oldMate = mateOf(s, node)
    makeBase(s, node, vertex)
    s.mate[vertex] = newMate
    if (oldMate < 0) return
    const minus = s.top[oldMate]!
    const inner = s.treeTo[minus]!
    const outer = s.treeFrom[minus]!
    makeBase(s, minus, inner)
    s.mate[inner] = outer
    vertex = outer
    newMate = inner
  }
}

/** Prices as they are at a time, and nothing labelled. */
function settle(s: MatchingState, time: number): void {
  const { labelled, reached, reach, queue } = s.search
  for (const node of labelled) {
    const what = s.label[node]
    if (what === label.none || s.parent[node] !== -1) continue
    const by = what === label.plus ? time : -time
    if (node < s.n) s.price[node]! += by
    else {
      s.half[node]! = what === label.plus ? s.half[node]! + time : s.half[node]! - time
      for (const v of verticesIn(s, node)) s.price[v]! += by
    }
    s.label[node] = label.none
  }
  for (const v of reached) reach[v] = Number.POSITIVE_INFINITY
  labelled.length = 0
  reached.length = 0
  queue.clear()
}
