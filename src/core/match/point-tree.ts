/** Points in a space of few dimensions, row after row. */
export interface Points {
  readonly count: number
  readonly dimensions: number
  readonly at: Float64Array
}

/** How far apart two points are: straight, its square halved, or the sum along the axes. */
export type Metric = 'distance' | 'half square' | 'sum'

/** A tree over points: leaves of a few neighbours each, and boxes around every node. */
export interface PointTree {
  readonly points: Points
  /** Points in the order of the leaves. */
  readonly order: Int32Array
  /** The first and past-the-last place of each node in that order; children of node k are 2k + 1 and 2k + 2. */
  readonly first: Int32Array
  readonly past: Int32Array
  readonly low: Float64Array
  readonly high: Float64Array
  readonly leaves: number
}

const leafSize = 8

/** Builds the tree by halving the widest side. */
export function pointTree(points: Points): PointTree {
  let levels = 0
  while (points.count >> levels > leafSize) levels++
  const nodes = 2 ** (levels + 1) - 1
  const { dimensions: d } = points
  const tree: PointTree = {
    points,
    order: Int32Array.from({ length: points.count }, (_, i) => i),
    first: new Int32Array(nodes),
    past: new Int32Array(nodes),
    low: new Float64Array(nodes * d).fill(Number.POSITIVE_INFINITY),
    high: new Float64Array(nodes * d).fill(Number.NEGATIVE_INFINITY),
    leaves: 2 ** levels - 1,
  }
  build(tree, 0, 0, points.count)
  return tree
}

function build(t: PointTree, node: number, first: number, past: number): void {
  t.first[node] = first
  t.past[node] = past
  const side = boxAround(t, node)
  if (node >= t.leaves) return
  const middle = (first + past) >> 1
  split(t, side, first, past - 1, middle)
  build(t, 2 * node + 1, first, middle)
  build(t, 2 * node + 2, middle, past)
}

/** Sets the box of a node; gives its widest side. */
function boxAround({ points, order, first, past, low, high }: PointTree, node: number): number {
  const { dimensions: d, at } = points
  let side = 0
  let widest = -1
  for (let k = 0; k < d; k++) {
    let least = Number.POSITIVE_INFINITY
    let most = Number.NEGATIVE_INFINITY
    for (let i = first[node]!; i < past[node]!; i++) {
      const x = at[order[i]! * d + k]!
      if (x < least) least = x
      if (x > most) most = x
    }
    low[node * d + k] = least
    high[node * d + k] = most
    if (most - least > widest) {
      widest = most - least
      side = k
    }
  }
  return side
}

/** Puts the place `middle` right by quick selection. */
function split({ points, order }: PointTree, side: number, first: number, last: number, middle: number): void {
  const { dimensions: d, at } = points
  let [l, r] = [first, last]
  while (l < r) {
    const pivot = at[order[(l + r) >> 1]! * d + side]!
    let i = l
    let j = r
    while (i <= j) {
      while (at[order[i]! * d + side]! < pivot) i++
      while (at[order[j]! * d + side]! > pivot) j--
      if (i > j) break
      const o = order[i]!
      order[i] = order[j]!
      order[j] = o
      i++
      j--
    }
    if (middle <= j) r = j
    else if (middle >= i) l = i
    else return
  }
}

/** Distance of two points before its root is drawn or its half is taken. */
export function squareTo({ at, dimensions: d }: Points, i: number, j: number, isSum: boolean): number {
  let sum = 0
  for (let k = 0; k < d; k++) {
    const x = at[i * d + k]! - at[j * d + k]!
    sum += isSum ? Math.abs(x) : x * x
  }
  return sum
}

/** Distance of two points by a metric. */
export function apart(points: Points, i: number, j: number, metric: Metric): number {
  const sum = squareTo(points, i, j, metric === 'sum')
  return metric === 'distance' ? Math.sqrt(sum) : metric === 'sum' ? sum : sum / 2
}

/** Least distance, by a metric before its root is drawn or its half is taken, from a point to the box of a node. */
export function toBox(t: PointTree, node: number, i: number, isSum: boolean): number {
  const { dimensions: d, at } = t.points
  let sum = 0
  for (let k = 0; k < d; k++) {
    const x = at[i * d + k]!
    const below = t.low[node * d + k]! - x
    const above = x - t.high[node * d + k]!
    const out = below > 0 ? below : Math.max(above, 0)
    sum += isSum ? out : out * out
  }
  return sum
}
