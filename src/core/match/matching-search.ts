import { closeRing, growTree, makePlus, openRing } from './grow-tree.ts'
import { label, type MatchingState, mateOf, verticesIn } from './matching-state.ts'
import { makeBase } from './rotate-blossom.ts'
import { scanOutside } from './scan-edges.ts'

/**
 * Grows alternating trees from all single nodes at once. Where two trees meet, or one reaches a vertex that is as well
 * left single, the path between the roots is matched anew and its trees fall away, until none is left.
 *
 * @see J. Edmonds, Maximum matching and a polyhedron with 0,1-vertices, J. Res. NBS 69B (1965) 125-130; events in a
 *   queue and prices put right only when a tree falls, as H. Gabow, Data structures for weighted matching, SODA 1990
 * @param roots vertices that are single, each an outermost node
 * @returns whether it went on to the end
 */
export function growTrees(s: MatchingState, roots: readonly number[], keepOn: (left: number) => boolean): boolean {
  const { queue, trees, limit, reach } = s.search
  queue.clear()
  reach.fill(Number.POSITIVE_INFINITY)
  for (const root of roots) {
    trees.set(root, [])
    limit[root] = Number.POSITIVE_INFINITY
  }
  for (const root of roots) makePlus(s, root, root, 0)
  let time = 0
  for (let steps = 0; trees.size > 0; steps++) {
    if (steps % 4096 === 0 && !keepOn(trees.size)) break
    time = queue.time
    const event = queue.pop()
    if (event < 0) openWhereDue(s, -1 - event, time)
    else if (event >= s.graph.to.length) leaveSingle(s, event - s.graph.to.length, time)
    else meet(s, event, time)
  }
  const isDone = trees.size === 0
  fell(s, [...trees.keys()], time)
  return isDone
}

function openWhereDue(s: MatchingState, node: number, time: number): void {
  if (s.label[node] === label.minus && s.parent[node] === -1 && s.half[node] === time) openRing(s, node, time)
}

/** The price of a vertex meets the limit: it is as well left single, and the root of its tree is matched. */
function leaveSingle(s: MatchingState, v: number, time: number): void {
  const node = s.node[s.top[v]!]!
  if (s.label[node] !== label.plus || s.singleCost - s.price[v]! !== time) return
  const root = s.search.root[node]!
  matchUp(s, v, -1)
  fell(s, [root], time)
}

/** An edge becomes tight, unless what was seen of it is out of date. */
function meet(s: MatchingState, slot: number, time: number): void {
  const u = s.graph.from[slot]!
  const v = s.graph.to[slot]!
  const [mine, other] = [s.node[s.top[u]!]!, s.node[s.top[v]!]!]
  if (mine === other || s.label[other] === label.minus) return
  const gap = s.graph.cost[slot]! - s.price[u]! - s.price[v]!
  const isPlus = s.label[mine] === label.plus
  const { root, reach } = s.search
  if (s.label[other] === label.none) {
    if (isPlus && gap === time) reachOut(s, u, v, time)
    // what reached it first has fallen: the next nearest tree takes its place
    else if (reach[v] === time) scanOutside(s, v)
  } else if (isPlus && gap === 2 * time) {
    if (root[mine] === root[other]) closeRing(s, u, v, time)
    else join(s, u, v, [root[mine]!, root[other]!], time)
  }
}

function reachOut(s: MatchingState, u: number, v: number, time: number): void {
  if (mateOf(s, s.node[s.top[v]!]!) >= 0) growTree(s, u, v, time)
  else join(s, u, v, [s.search.root[s.node[s.top[u]!]!]!], time)
}

function join(s: MatchingState, u: number, v: number, roots: readonly number[], time: number): void {
  const outside = roots.length === 2 ? [] : verticesIn(s, s.node[s.top[v]!]!)
  if (roots.length === 2) matchUp(s, v, u)
  else {
    makeBase(s, s.node[s.top[v]!]!, v)
    s.mate[v] = u
  }
  matchUp(s, u, v)
  fell(s, roots, time)
  // a node that was in no tree is still outside, and other trees may reach it
  for (const w of outside) scanOutside(s, w)
}

/** Gives a plus vertex a new mate (-1 for none), and those above it in the tree each the next. */
function matchUp(s: MatchingState, from: number, to: number): void {
  let vertex = from
  let newMate = to
  for (;;) {
    const node = s.node[s.top[vertex]!]!
    const oldMate = mateOf(s, node)
    makeBase(s, node, vertex)
    s.mate[vertex] = newMate
    if (oldMate < 0) return
    const minus = s.node[s.top[oldMate]!]!
    const inner = s.treeTo[minus]!
    const outer = s.treeFrom[minus]!
    makeBase(s, minus, inner)
    s.mate[inner] = outer
    vertex = outer
    newMate = inner
  }
}

/** Trees fall: their prices are as they are at that time, and they are outside of what is still growing. */
function fell(s: MatchingState, roots: readonly number[], time: number): void {
  const fallen: number[] = []
  for (const root of roots) {
    const labelled = s.search.trees.get(root)!
    s.search.trees.delete(root)
    for (const node of labelled) {
      const what = s.label[node]
      if (what === label.none || s.parent[node] !== -1 || s.search.root[node] !== root) continue
      const by = what === label.plus ? time : -time
      const inside = verticesIn(s, node)
      for (const v of inside) s.price[v]! += by
      if (node >= s.n) s.half[node]! += by
      s.label[node] = label.none
      fallen.push(...inside)
    }
  }
  for (const v of fallen) scanOutside(s, v)
}
