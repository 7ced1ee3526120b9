import type { PossibleSets } from './possible-sets.ts'

/** Prices that bound what sets cost: one for each part, none above 0, and one for every set. */
export interface SetPrices {
  readonly part: Float64Array
  readonly set: number
}

/**
 * What any choice of so many sets costs at least, by prices, whoever made them: the price of the sets, with those of all
 * parts, and for each set what the one cheapest below its prices costs less than them.
 */
export function costFromPrices(all: PossibleSets, { part, set }: SetPrices, count: number): number {
  let least = 0
  for (let i = 0; i < all.count; i++) {
    let over = all.cost[i]! - set
    for (let m = i * all.size; m < (i + 1) * all.size; m++) over -= part[all.members[m]!]!
    if (over < least) least = over
  }
  return part.reduce((sum, x) => sum + x, 0) + count * (set + least)
}
