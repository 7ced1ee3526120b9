import { label, type MatchingState, mateOf, ringOf, setLabel, verticesIn } from './matching-state.ts'
import { childWith } from './rotate-blossom.ts'
import { scanOutside, scanPlus } from './scan-edges.ts'

/** Makes an outermost node plus from a time on, and looks at its edges. */
export function makePlus(s: MatchingState, node: number, root: number, time: number): void {
  setLabel(s, node, label.plus, root)
  if (node < s.n) {
    s.price[node]! -= time
    scanPlus(s, node)
    return
  }
  s.half[node]! -= time
  const inside = verticesIn(s, node)
  for (const v of inside) s.price[v]! -= time
  for (const v of inside) scanPlus(s, v)
}

/** The tree takes in the node of a matched vertex, and its mate. */
export function growTree(s: MatchingState, from: number, to: number, time: number): void {
  const node = s.node[s.top[to]!]!
  const root = s.search.root[s.node[s.top[from]!]!]!
  setLabel(s, node, label.minus, root)
  s.treeFrom[node] = from
  s.treeTo[node] = to
  if (node < s.n) s.price[node]! += time
  else {
    for (const v of verticesIn(s, node)) s.price[v]! += time
    s.half[node]! += time
    s.search.queue.push(s.half[node]!, -1 - node)
  }
  makePlus(s, s.node[s.top[mateOf(s, node)]!]!, root, time)
}

/** Two plus nodes of the tree met: the ring they close becomes one plus node. */
export function closeRing(s: MatchingState, from: number, to: number, time: number): void {
  const root = commonAncestor(s, s.node[s.top[from]!]!, s.node[s.top[to]!]!)
  const node = s.unused.pop()!
  const ring = { nodes: [root], linkFrom: [] as number[], linkTo: [] as number[] }
  // down from the root to `from`, over the edge, and up again from `to`
  const down = pathUp(s, s.node[s.top[from]!]!, root)
  for (const [outer, inner, child] of down.reverse()) {
    ring.linkFrom.push(outer)
    ring.linkTo.push(inner)
    ring.nodes.push(child)
  }
  ring.linkFrom.push(from)
  ring.linkTo.push(to)
  for (const [outer, inner, child] of pathUp(s, s.node[s.top[to]!]!, root)) {
    ring.nodes.push(child)
    ring.linkFrom.push(inner)
    ring.linkTo.push(outer)
  }
  s.rings[node - s.n] = ring
  s.base[node] = s.base[root]!
  s.half[node] = -time
  setLabel(s, node, label.plus, s.search.root[root]!)
  takeIn(s, node, time)
}

/** Steps from a plus node up to an ancestor: the vertex above, the vertex below, and the node below. */
function pathUp(s: MatchingState, from: number, to: number): (readonly [number, number, number])[] {
  const steps: (readonly [number, number, number])[] = []
  for (let node = from; node !== to; ) {
    const vertex = s.base[node]!
    const above = s.mate[vertex]!
    const minus = s.node[s.top[above]!]!
    steps.push([above, vertex, node], [s.treeFrom[minus]!, s.treeTo[minus]!, minus])
    node = s.node[s.top[s.treeFrom[minus]!]!]!
  }
  return steps
}

/** Takes nodes in. The largest keeps its handle, so that only vertices of the others are told where they are now. */
function takeIn(s: MatchingState, node: number, time: number): void {
  const nowPlus: number[] = []
  const { nodes } = ringOf(s, node)
  let largest = -1
  s.size[node] = 0
  for (const child of nodes) {
    s.size[node]! += s.size[child]!
    if (s.label[child] === label.plus && (largest < 0 || s.size[child]! > s.size[largest]!)) largest = child
  }
  const handle = s.handle[largest]!
  s.handle[node] = handle
  s.node[handle] = node
  for (const child of nodes) {
    s.parent[child] = node
    const wasMinus = s.label[child] === label.minus
    s.label[child] = label.none
    if (child >= s.n) s.half[child]! += wasMinus ? -time : time
    if (child === largest) continue
    for (const v of verticesIn(s, child)) {
      s.top[v] = handle
      if (!wasMinus) continue
      s.price[v]! -= 2 * time
      nowPlus.push(v)
    }
  }
  for (const v of nowPlus) scanPlus(s, v)
}

/** The nearest plus node that is above both, found by walking up from both in turn. */
function commonAncestor(s: MatchingState, a: number, b: number): number {
  const { mark } = s.search
  const now = ++s.search.marks
  let [one, other] = [a, b]
  for (;;) {
    if (one >= 0) {
      if (mark[one] === now) return one
      mark[one] = now
      one = above(s, one)
    }
    ;[one, other] = [other, one]
  }
}

/** The plus node above a plus node, -1 for the root. */
function above(s: MatchingState, node: number): number {
  const mate = mateOf(s, node)
  return mate < 0 ? -1 : s.node[s.top[s.treeFrom[s.node[s.top[mate]!]!]!]!]!
}

/** A minus blossom whose price has come to nothing opens: part of its ring stays in the tree, the rest falls out. */
export function openRing(s: MatchingState, node: number, time: number): void {
  const ring = ringOf(s, node)
  const tree = s.search.root[node]!
  const from = s.treeFrom[node]!
  const to = s.treeTo[node]!
  const entry = childWith(s, node, to)
  release(s, node)
  const size = ring.nodes.length
  const at = ring.nodes.indexOf(entry)
  // towards the base over a matched link first, so that the way has an even number of links
  const step = at % 2 === 1 ? 1 : -1
  const inTree = new Set<number>()
  const nowPlus: number[] = []
  let [outer, inner] = [from, to]
  for (let i = at; ; i += 2 * step) {
    const child = ring.nodes[i % size]!
    keepMinus(s, { child, from: outer, to: inner, tree }, time)
    inTree.add(child)
    if (i % size === 0) break
    const plus = ring.nodes[i + step]!
    inTree.add(plus)
    nowPlus.push(plus)
    const link = step === 1 ? i + 1 : i - 2
    outer = step === 1 ? ring.linkFrom[link]! : ring.linkTo[link]!
    inner = step === 1 ? ring.linkTo[link]! : ring.linkFrom[link]!
  }
  const outside = ring.nodes.filter((child) => !inTree.has(child)).flatMap((child) => verticesIn(s, child))
  for (const v of outside) s.price[v]! -= time
  const risen = raiseInTree(s, nowPlus, tree, time)
  // edges are looked at only when every label and price is right
  for (const v of outside) scanOutside(s, v)
  for (const v of risen) scanPlus(s, v)
}

/**
 * Takes a blossom apart: its children are outermost from now on. The child that its handle is in, mostly the largest,
 * keeps the handle, so that only vertices of the others are told where they are now.
 */
export function release(s: MatchingState, node: number): void {
  const handle = s.handle[node]!
  const heir = childWith(s, node, handle)
  for (const child of ringOf(s, node).nodes) if (child !== heir) makeOutermost(s, child)
  s.parent[heir] = -1
  s.handle[heir] = handle
  s.node[handle] = heir
  drop(s, node)
}

/** Makes a node outermost; gives its vertices. */
export function makeOutermost(s: MatchingState, node: number): readonly number[] {
  const inside = verticesIn(s, node)
  const handle = s.base[node]!
  s.parent[node] = -1
  s.handle[node] = handle
  s.node[handle] = node
  for (const v of inside) s.top[v] = handle
  return inside
}

/** Forgets a blossom whose children are outermost. */
export function drop(s: MatchingState, node: number): void {
  s.rings[node - s.n] = undefined
  s.label[node] = label.none
  s.half[node] = 0
  s.parent[node] = -1
  s.unused.push(node)
}

interface Kept {
  readonly child: number
  readonly from: number
  readonly to: number
  readonly tree: number
}

function keepMinus(s: MatchingState, { child, from, to, tree }: Kept, time: number): void {
  setLabel(s, child, label.minus, tree)
  s.treeFrom[child] = from
  s.treeTo[child] = to
  if (child < s.n) return
  s.half[child]! += time
  s.search.queue.push(s.half[child]!, -1 - child)
}

function raiseInTree(s: MatchingState, nodes: readonly number[], tree: number, time: number): readonly number[] {
  const risen = nodes.flatMap((child) => verticesIn(s, child))
  for (const v of risen) s.price[v]! -= 2 * time
  for (const child of nodes) {
    setLabel(s, child, label.plus, tree)
    if (child >= s.n) s.half[child]! -= time
  }
  return risen
}
