import { type MatchingState, ringOf } from './matching-state.ts'

/**
 * Makes a vertex the base of a node: the rest of the node is matched within itself, and the vertex is free to be matched
 * outside. Mates of other vertices are set; that of the new base is left to the caller.
 */
export function makeBase(s: MatchingState, node: number, vertex: number): void {
  if (s.base[node] === vertex) return
  let child = vertex
  do {
    const around = s.parent[child]!
    if (s.base[around] !== vertex) turnTo(s, around, child, vertex)
    child = around
  } while (child !== node)
}

function turnTo(s: MatchingState, node: number, child: number, vertex: number): void {
  const ring = ringOf(s, node)
  const at = ring.nodes.indexOf(child)
  const size = ring.nodes.length
  // from the child around to it again, the others pair up: the 1st with the 2nd after it, the 3rd with the 4th
  for (let i = 1; i < size; i += 2) matchLink(s, node, (at + i) % size)
  if (at > 0) {
    ring.nodes = turned(ring.nodes, at)
    ring.linkFrom = turned(ring.linkFrom, at)
    ring.linkTo = turned(ring.linkTo, at)
  }
  s.base[node] = vertex
}

const turned = (list: readonly number[], by: number): number[] => [...list.slice(by), ...list.slice(0, by)]

/** Matches two neighbours in a ring along their link. */
function matchLink(s: MatchingState, node: number, i: number): void {
  const ring = ringOf(s, node)
  const u = ring.linkFrom[i]!
  const v = ring.linkTo[i]!
  if (s.mate[u] === v) return
  makeBase(s, ring.nodes[i]!, u)
  makeBase(s, ring.nodes[(i + 1) % ring.nodes.length]!, v)
  s.mate[u] = v
  s.mate[v] = u
}

/** The child of a blossom that a vertex is in. */
export function childWith(s: MatchingState, node: number, vertex: number): number {
  let child = vertex
  while (s.parent[child] !== node) child = s.parent[child]!
  return child
}
