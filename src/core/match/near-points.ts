import { type PointTree, toBox } from './point-tree.ts'

/**
 * Pairs of near points: every point with its `k` nearest among those it may go with. Each pair once.
 *
 * @param isSum distances are sums along the axes, else straight
 */
export function nearPairs(
  t: PointTree,
  k: number,
  isSum: boolean,
  mayPair?: (i: number, j: number) => boolean,
): { readonly a: number[]; readonly b: number[]; readonly length: number } {
  const n = t.points.count
  const near = new Int32Array(n * k).fill(-1)
  const dist = new Float64Array(k)
  const found = new Int32Array(k)
  for (let at = 0; at < n; at++) {
    const i = t.order[at]!
    const count = nearest(t, i, { k, isSum, mayPair, dist, found })
    near.set(found.subarray(0, count), i * k)
  }
  const a: number[] = []
  const b: number[] = []
  for (let i = 0; i < n; i++)
    for (let m = i * k; m < i * k + k && near[m]! >= 0; m++) {
      const j = near[m]!
      if (j < i && includes(near, j * k, k, i)) continue
      a.push(i)
      b.push(j)
    }
  return { a, b, length: a.length }
}

const includes = (list: Int32Array, start: number, k: number, what: number): boolean => {
  for (let m = start; m < start + k; m++) if (list[m] === what) return true
  return false
}

interface Wanted {
  readonly k: number
  readonly isSum: boolean
  readonly mayPair: ((i: number, j: number) => boolean) | undefined
  readonly dist: Float64Array
  readonly found: Int32Array
}

const stack = new Int32Array(256)
const stackDist = new Float64Array(256)

function nearest(t: PointTree, i: number, { k, isSum, mayPair, dist, found }: Wanted): number {
  const { dimensions: d, at } = t.points
  const { leaves, order, first, past } = t
  let count = 0
  let depth = 1
  stack[0] = 0
  stackDist[0] = 0
  const own = i * d
  while (depth > 0) {
    const node = stack[--depth]!
    if (count === k && stackDist[depth]! >= dist[k - 1]!) continue
    if (node < leaves) {
      const left = 2 * node + 1
      const l = toBox(t, left, i, isSum)
      const r = toBox(t, left + 1, i, isSum)
      const isLeftNearer = l <= r
      stack[depth] = isLeftNearer ? left + 1 : left
      stackDist[depth++] = isLeftNearer ? r : l
      stack[depth] = isLeftNearer ? left : left + 1
      stackDist[depth++] = isLeftNearer ? l : r
      continue
    }
    for (let m = first[node]!; m < past[node]!; m++) {
      const j = order[m]!
      if (j === i) continue
      let sum = 0
      for (let c = 0, o = j * d; c < d; c++) {
        const x = at[own + c]! - at[o + c]!
        sum += isSum ? Math.abs(x) : x * x
      }
      if (count === k && sum >= dist[k - 1]!) continue
      if (mayPair !== undefined && !mayPair(i, j)) continue
      let place = count < k ? count++ : k - 1
      for (; place > 0 && dist[place - 1]! > sum; place--) {
        dist[place] = dist[place - 1]!
        found[place] = found[place - 1]!
      }
      dist[place] = sum
      found[place] = j
    }
  }
  return count
}
