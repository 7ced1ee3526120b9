import type { MatchingState } from './matching-state.ts'
import { nestOf, priceAroundBoth } from './nest.ts'
import { apart, type Metric, type PointTree, squareTo, toBox } from './point-tree.ts'

/** How costs are counted, and which pairs may be. */
export interface Counting {
  readonly metric: Metric
  readonly mayPair?: ((i: number, j: number) => boolean) | undefined
  /** A cost in whole numbers. */
  readonly whole: (cost: number) => number
  /** Whole numbers to one of cost. */
  readonly scale: number
}

/** Pairs as three columns. */
export interface PairList {
  readonly a: readonly number[]
  readonly b: readonly number[]
  readonly cost: readonly number[]
  readonly length: number
}

/** Of each point so many are added at once. */
const mostEach = 4

/** A hair wider than a reach, so that rounding hides no pair. */
const hair = 1 + 1e-9

/** Pairs, of those left out, that cost less than the prices of their ends; of each point the few that do so most. */
export function missedPairs(s: MatchingState, t: PointTree, { metric, mayPair, whole, scale }: Counting): PairList {
  const { points, order, first, past, leaves } = t
  const isSum = metric === 'sum'
  const highest = highestPrices(s, t)
  const nest = nestOf(s)
  const a: number[] = []
  const b: number[] = []
  const cost: number[] = []
  const stack = new Int32Array(256)
  // in the order of the tree, and each pair from its earlier end alone
  for (let place = 0; place < s.n; place++) {
    const i = order[place]!
    const price = s.price[i]!
    const own: (readonly [slack: number, j: number, cost: number])[] = []
    let depth = 1
    stack[0] = 0
    while (depth > 0) {
      const node = stack[--depth]!
      if (past[node]! <= place + 1) continue
      const reach = (price + highest[node]!) / scale
      if (reach <= 0 || toBox(t, node, i, isSum) >= asCounted(reach, metric) * hair) continue
      if (node < leaves) {
        stack[depth++] = 2 * node + 1
        stack[depth++] = 2 * node + 2
        continue
      }
      for (let m = Math.max(first[node]!, place + 1); m < past[node]!; m++) {
        const j = order[m]!
        const both = price + s.price[j]!
        if (both <= 0 || squareTo(points, i, j, isSum) >= asCounted(both / scale, metric) * hair) continue
        const c = whole(apart(points, i, j, metric))
        if (c >= both || (mayPair !== undefined && !mayPair(i, j))) continue
        const slack = c - both + priceAroundBoth(s, nest, i, j)
        if (slack < 0) own.push([slack, j, c])
      }
    }
    if (own.length > 1) own.sort(([x], [y]) => x - y)
    for (const [, j, c] of own.slice(0, mostEach)) {
      a.push(i)
      b.push(j)
      cost.push(c)
    }
  }
  return { a, b, cost, length: a.length }
}

/** A distance as `toBox` and `squareTo` count it. */
const asCounted = (reach: number, metric: Metric): number =>
  metric === 'distance' ? reach * reach : metric === 'sum' ? reach : 2 * reach

function highestPrices(s: MatchingState, t: PointTree): Float64Array {
  const highest = new Float64Array(t.first.length)
  for (let node = t.first.length - 1; node >= 0; node--) {
    let most = Number.NEGATIVE_INFINITY
    if (node < t.leaves) most = Math.max(highest[2 * node + 1]!, highest[2 * node + 2]!)
    else for (let m = t.first[node]!; m < t.past[node]!; m++) most = Math.max(most, s.price[t.order[m]!]!)
    highest[node] = most
  }
  return highest
}
