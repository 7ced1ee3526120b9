import type { Placed } from './place-parts.ts'
import { membersOf, possibleSets } from './possible-sets.ts'
import type { MatchRequest } from './request.ts'

/** Up to so many parts every choice is looked at. */
export const exactlyUpTo = 16

/** The best sets of few parts: most sets first, then least cost, by going through all subsets of the parts. */
export function setsExactly(p: Placed, request: MatchRequest): readonly (readonly number[])[] {
  const { size, sets } = request
  const n = p.points.count
  const full = 2 ** n
  const byLowest: Choice[][] = Array.from({ length: n }, () => [])
  const all = possibleSets(p, request, Number.POSITIVE_INFINITY)!
  for (let i = 0; i < all.count; i++) {
    const members = membersOf(all, i)
    const mask = members.reduce((bits, v) => bits | (1 << v), 0)
    byLowest[members[0]!]!.push({ mask, cost: all.cost[i]! })
  }
  // layer c: the least cost of c sets out of each subset of the parts
  const layers: Layer[] = [{ cost: new Float64Array(full), taken: new Int32Array(full) }]
  for (let c = 1; c <= Math.min(sets ?? n, Math.floor(n / size)); c++) {
    const layer = nextLayer(layers[c - 1]!, byLowest, full)
    if (layer.cost[full - 1] === Number.POSITIVE_INFINITY) break
    layers.push(layer)
  }
  return unfold(layers, full - 1)
}

interface Choice {
  readonly mask: number
  readonly cost: number
}

interface Layer {
  readonly cost: Float64Array
  readonly taken: Int32Array
}

function nextLayer(before: Layer, byLowest: readonly (readonly Choice[])[], full: number): Layer {
  const cost = new Float64Array(full).fill(Number.POSITIVE_INFINITY)
  const taken = new Int32Array(full)
  for (let mask = 1; mask < full; mask++) {
    // the lowest part of a subset is left over, or it is the lowest of its set
    cost[mask] = cost[mask & (mask - 1)]!
    for (const c of byLowest[31 - Math.clz32(mask & -mask)]!) {
      if ((c.mask & mask) !== c.mask) continue
      const total = before.cost[mask & ~c.mask]! + c.cost
      if (total >= cost[mask]!) continue
      cost[mask] = total
      taken[mask] = c.mask
    }
  }
  return { cost, taken }
}

function unfold(layers: readonly Layer[], all: number): readonly (readonly number[])[] {
  const found: number[][] = []
  for (let mask = all, c = layers.length - 1; c > 0; ) {
    const set = layers[c]!.taken[mask]!
    if (set === 0) mask &= mask - 1
    else {
      found.push(bits(set))
      mask &= ~set
      c--
    }
  }
  return found
}

const bits = (mask: number): number[] => Array.from({ length: 31 }, (_, i) => i).filter((i) => (mask >> i) & 1)
