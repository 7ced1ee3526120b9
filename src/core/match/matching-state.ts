import type { EdgeGraph } from './edge-graph.ts'
import { EventQueue } from './event-queue.ts'

/** What a node is in the trees that are growing. */
export const label = { none: 0, plus: 1, minus: 2 } as const

/**
 * A matching with its prices, and the blossoms (odd rings of parts that count as one) that the prices need.
 *
 * Nodes 0 to n - 1 are vertices, higher ones are blossoms. All costs and prices are whole numbers kept in doubles, so
 * that every comparison is exact.
 */
export interface MatchingState {
  graph: EdgeGraph
  readonly n: number
  /** What it costs to leave a vertex single; no price rises above it. */
  singleCost: number
  /** Mate of each vertex, -1 where it is single. */
  readonly mate: Int32Array
  /**
   * Price of each vertex. While its node is plus in a growing tree the price is this plus the time, while it is minus
   * this less the time.
   */
  readonly price: Float64Array
  /** Half the price of each blossom, by node; in the tree it runs as those of vertices do. */
  readonly half: Float64Array
  /** Handle of the outermost node a vertex is in: one of the vertices in it. */
  readonly top: Int32Array
  /** Outermost node by its handle, and the handle of a node while it is outermost. */
  readonly node: Int32Array
  readonly handle: Int32Array
  /** How many vertices are in a node. */
  readonly size: Int32Array
  /** Node of which a node is a child, -1 for outermost ones. */
  readonly parent: Int32Array
  /** The vertex through which a node is matched. */
  readonly base: Int32Array
  readonly label: Uint8Array
  /** Edge by which a minus node joined the tree: the vertex outside, and the one inside. */
  readonly treeFrom: Int32Array
  readonly treeTo: Int32Array
  /** Rings of blossoms, by node less n. */
  readonly rings: (Ring | undefined)[]
  readonly unused: number[]
  readonly search: SearchState
}

/** The nodes around a blossom, the one with the base first; link i joins node i and the next by two vertices. */
export interface Ring {
  nodes: number[]
  linkFrom: number[]
  linkTo: number[]
}

/** What the search keeps while trees grow. */
export interface SearchState {
  /** What comes when: slots of edges, after them vertices whose price meets the limit, and below 0 blossoms that open. */
  readonly queue: EventQueue
  /** Root of the tree a labelled node is in, by the vertex that was single. */
  readonly root: Int32Array
  /** Nodes that were labelled in each tree. */
  readonly trees: Map<number, number[]>
  /** Earliest time an edge from a tree reaches a vertex outside, by vertex. */
  readonly reach: Float64Array
  /** Earliest time a price in a tree meets the limit, by root. */
  readonly limit: Float64Array
  /** Marks of the walk to a common ancestor. */
  readonly mark: Int32Array
  marks: number
}

/** A state in which nothing is matched and every price is 0. */
export function freshState(graph: EdgeGraph, singleCost: number): MatchingState {
  const n = graph.count
  const nodes = n + (n >> 1) + 1
  return {
    graph,
    n,
    singleCost,
    mate: new Int32Array(n).fill(-1),
    price: new Float64Array(n),
    half: new Float64Array(nodes),
    top: Int32Array.from({ length: n }, (_, v) => v),
    node: Int32Array.from({ length: n }, (_, v) => v),
    handle: Int32Array.from({ length: nodes }, (_, v) => v),
    size: new Int32Array(nodes).fill(1),
    parent: new Int32Array(nodes).fill(-1),
    base: Int32Array.from({ length: nodes }, (_, v) => v),
    label: new Uint8Array(nodes),
    treeFrom: new Int32Array(nodes),
    treeTo: new Int32Array(nodes),
    rings: [],
    unused: Array.from({ length: nodes - n }, (_, i) => nodes - 1 - i),
    search: {
      queue: new EventQueue(),
      root: new Int32Array(nodes).fill(-1),
      trees: new Map(),
      reach: new Float64Array(n).fill(Number.POSITIVE_INFINITY),
      limit: new Float64Array(n),
      mark: new Int32Array(nodes),
      marks: 0,
    },
  }
}

export const ringOf = (s: MatchingState, node: number): Ring => s.rings[node - s.n]!

/** The vertices in a node. Without recursion: blossoms may lie in each other thousands deep. */
export function verticesIn(s: MatchingState, node: number): number[] {
  if (node < s.n) return [node]
  const inside: number[] = []
  const open = [node]
  while (open.length > 0) {
    const { nodes } = ringOf(s, open.pop()!)
    for (const child of nodes) {
      if (child < s.n) inside.push(child)
      else open.push(child)
    }
  }
  return inside
}

/** Vertex outside that an outermost node is matched with, -1 where it is single. */
export const mateOf = (s: MatchingState, node: number): number => s.mate[s.base[node]!]!

/** Labels a node of a tree. */
export function setLabel(s: MatchingState, node: number, what: number, root: number): void {
  s.label[node] = what
  s.search.root[node] = root
  s.search.trees.get(root)!.push(node)
}
