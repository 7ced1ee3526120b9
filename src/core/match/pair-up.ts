import { edgeGraph } from './edge-graph.ts'
import { type MatchingState, verticesIn } from './matching-state.ts'
import { addEdges, completeMatching, startMatching } from './minimum-matching.ts'
import { missedPairs } from './missed-pairs.ts'
import { nearPairs } from './near-points.ts'
import { apart, type Metric, type Points, type PointTree, pointTree } from './point-tree.ts'

/** What is to be paired. */
export interface Pairing {
  readonly points: Points
  readonly metric: Metric
  /** Whether two points may be a pair at all; left out, any may. */
  readonly mayPair?: (i: number, j: number) => boolean
  /** What it costs to leave one single; left out, more than any number of pairs could. */
  readonly singleCost?: number
  /** Neighbours looked at first. */
  readonly neighbours?: number
  readonly keepOn?: (left: number) => boolean
}

/** Pairs of least cost, and the prices that prove it. */
export interface PairedUp {
  readonly mate: Int32Array
  readonly cost: number
  /** No pairing as large costs less; 0 where the work was broken off. */
  readonly bound: number
  /** Price of each point. No pair costs less than the prices of its two, but for groups both are in. */
  readonly prices: Float64Array
  /** Odd groups with a price: pairs inside may cost that much less. */
  readonly groups: () => readonly { readonly members: readonly number[]; readonly price: number }[]
  readonly singleCost: number
  readonly isComplete: boolean
  /** How often pairs that were left out at first were added. */
  readonly rounds: number
}

const neighboursDefault = 8

/**
 * Pairs points at least cost, the number of pairs coming first, and proves it over all pairs that may be, not only
 * those looked at: a pair left out matters only where it costs less than the prices of its two ends, and a search with
 * the prices finds every such pair.
 */
export function pairUp(p: Pairing): PairedUp {
  const { points, metric } = p
  const tree = pointTree(points)
  const isSum = metric === 'sum'
  const near = nearPairs(
    tree,
    Math.min(p.neighbours ?? neighboursDefault, Math.max(1, points.count - 1)),
    isSum,
    p.mayPair,
  )
  const widest = Math.max(widestPair(tree, metric), 1e-12)
  const most = p.singleCost ?? (p.mayPair === undefined ? widest : widest * (points.count / 4 + 1))
  // whole numbers, multiples of four so that halves of halves stay whole: as fine as doubles hold, with room for sums of prices
  const unit = 2 ** Math.floor(Math.log2(2 ** 48 / Math.max(most, widest)))
  const whole = (cost: number): number => 4 * Math.round(cost * unit)
  const cost = Float64Array.from({ length: near.length }, (_, e) =>
    whole(apart(points, near.a[e]!, near.b[e]!, metric)),
  )
  const state = startMatching(edgeGraph(points.count, { ...near, cost }), whole(most))
  let rounds = 0
  let isComplete = completeMatching(state, p.keepOn)
  while (isComplete) {
    const missed = missedPairs(state, tree, { metric, mayPair: p.mayPair, whole, scale: 4 * unit })
    if (missed.length === 0) break
    rounds++
    addEdges(state, missed)
    isComplete = completeMatching(state, p.keepOn)
  }
  return answerOf(state, p, 4 * unit, { isComplete, rounds })
}

/** A distance that none exceeds. */
function widestPair(t: PointTree, metric: Metric): number {
  let sum = 0
  for (let k = 0; k < t.points.dimensions; k++) {
    const x = t.high[k]! - t.low[k]!
    sum += metric === 'sum' ? x : x * x
  }
  return metric === 'distance' ? Math.sqrt(sum) : metric === 'sum' ? sum : sum / 2
}

function answerOf(s: MatchingState, p: Pairing, scale: number, how: Pick<PairedUp, 'isComplete' | 'rounds'>): PairedUp {
  const prices = s.price.map((x) => x / scale)
  const singleCost = s.singleCost / scale
  let cost = 0
  let single = 0
  for (let v = 0; v < s.n; v++) {
    if (s.mate[v]! > v) cost += apart(p.points, v, s.mate[v]!, p.metric)
    else if (s.mate[v]! < 0) single++
  }
  const priced = s.rings.flatMap((ring, i) => {
    const price = (2 * s.half[s.n + i]!) / scale
    return ring === undefined || price === 0 ? [] : [{ node: s.n + i, price }]
  })
  let bound = -single * singleCost
  for (const x of prices) bound += x
  for (const { node, price } of priced) bound -= price * ((s.size[node]! - 1) / 2)
  // what rounding to whole numbers may have taken
  const lost = s.n / 2 / scale
  return {
    mate: s.mate,
    cost,
    bound: how.isComplete ? Math.min(cost, bound - lost) : 0,
    prices,
    // groups lie in each other thousands deep, so their members are listed only for who asks
    groups: () => priced.map(({ node, price }) => ({ members: verticesIn(s, node), price })),
    singleCost,
    ...how,
  }
}
