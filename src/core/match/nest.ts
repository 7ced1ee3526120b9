import { type MatchingState, ringOf } from './matching-state.ts'

/** How blossoms lie in each other, made ready for asking which of them are around two vertices. */
export interface Nest {
  /** Sum of the prices of each blossom and those around it, by node. */
  readonly around: Float64Array
  /** A node is inside another where it is entered after it and not later than that one's last. */
  readonly entered: Int32Array
  readonly last: Int32Array
  /** A node further out, so that the way to any around is a few steps however deep they lie; -1 for none. */
  readonly jump: Int32Array
}

/**
 * Makes the nest of a matching as it now is.
 *
 * @see E. W. Myers, An applicative random-access stack, Inform. Process. Lett. 17 (1983) 241-248, for the jumps
 */
export function nestOf(s: MatchingState): Nest {
  const size = s.half.length
  const nest = {
    around: new Float64Array(size),
    entered: new Int32Array(size),
    last: new Int32Array(size),
    jump: new Int32Array(size).fill(-1),
  }
  const depth = new Int32Array(size)
  let count = 0
  const open: number[] = []
  for (let v = 0; v < s.n; v++) if (s.parent[v] === -1) open.push(v)
  for (let i = 0; i < s.rings.length; i++) if (s.rings[i] !== undefined && s.parent[s.n + i] === -1) open.push(s.n + i)
  // each node is met twice: on the way in, and as its own complement when all inside it is done
  while (open.length > 0) {
    const node = open.pop()!
    if (node < 0) {
      nest.last[~node] = count - 1
      continue
    }
    enter(s, nest, depth, node)
    nest.entered[node] = count++
    nest.last[node] = nest.entered[node]!
    if (node < s.n) continue
    open.push(~node)
    for (const child of ringOf(s, node).nodes) open.push(child)
  }
  return nest
}

function enter(s: MatchingState, nest: Nest, depth: Int32Array, node: number): void {
  const parent = s.parent[node]!
  nest.around[node] = (node < s.n ? 0 : 2 * s.half[node]!) + (parent < 0 ? 0 : nest.around[parent]!)
  if (parent < 0) return
  depth[node] = depth[parent]! + 1
  const far = nest.jump[parent]!
  const farther = far < 0 ? -1 : nest.jump[far]!
  const isEven = far >= 0 && depth[parent]! - depth[far]! === depth[far]! - (farther < 0 ? -1 : depth[farther]!)
  nest.jump[node] = isEven ? farther : parent
}

const isInside = ({ entered, last }: Nest, vertex: number, node: number): boolean =>
  entered[node]! <= entered[vertex]! && entered[vertex]! <= last[node]!

/** Sum of the prices of all blossoms that are around both of two vertices. */
export function priceAroundBoth(s: MatchingState, nest: Nest, u: number, v: number): number {
  if (s.top[u] !== s.top[v]) return 0
  let node = s.parent[v]!
  while (node >= 0 && !isInside(nest, u, node)) {
    const far = nest.jump[node]!
    node = far < 0 || isInside(nest, u, far) ? s.parent[node]! : far
  }
  return node < 0 ? 0 : nest.around[node]!
}
