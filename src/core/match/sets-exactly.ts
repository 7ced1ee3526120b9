import type { Placed } from './place-parts.ts'
import type { MatchRequest } from './request.ts'
import { setCost } from './set-cost.ts'

/** Up to so many parts every choice is looked at. */
export const exactlyUpTo = 16

/** The best sets of few parts: most sets first, then least cost, by going through all subsets of the parts. */
export function setsExactly(p: Placed, { size, objective, sets }: MatchRequest): readonly (readonly number[])[] {
  const n = p.points.count
  const full = 2 ** n
  const byLowest: Choice[][] = Array.from({ length: n }, () => [])
  for (const { mask, members } of possibleSets(p, size))
    byLowest[members[0]!]!.push({ mask, cost: setCost(p.points, members, objective) })
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

/** Every set that may be, its members in order. */
function possibleSets(
  p: Placed,
  size: number,
): readonly { readonly mask: number; readonly members: readonly number[] }[] {
  const found: { mask: number; members: readonly number[] }[] = []
  const extend = (members: readonly number[], from: number): void => {
    if (members.length === size) {
      found.push({ mask: members.reduce((mask, v) => mask | (1 << v), 0), members })
      return
    }
    for (let v = from; v < p.points.count; v++)
      if (members.every((m) => p.mayGo?.(m, v) ?? true)) extend([...members, v], v + 1)
  }
  extend([], 0)
  return found
}
