import { usablePartsByType } from '#book'
import { findType, type PartType } from '#core/device'
import type { Bench } from './bench.ts'

/** Usable parts of one known type, under one of the names it was typed by. */
export interface HeldType {
  readonly name: string
  readonly type: PartType
  readonly count: number
}

/** Known types there are usable parts of in the book, each under every name it was typed by; none where no book is open. */
export async function heldByName(bench: Bench): Promise<readonly HeldType[]> {
  if (bench.book === undefined) return []
  return [...(await usablePartsByType(bench.book))].flatMap(([name, count]) => {
    const type = findType(bench.types, name).found?.partType
    return type === undefined ? [] : [{ name, type, count }]
  })
}

/** How many usable parts there are of each type, all its names taken together. */
export function countsByType(held: readonly HeldType[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const { type, count } of held) counts.set(type.type, (counts.get(type.type) ?? 0) + count)
  return counts
}

/** How many usable parts of each known type the book holds; of none where no book is open. */
export const heldTypes = async (bench: Bench): Promise<ReadonlyMap<string, number>> =>
  countsByType(await heldByName(bench))
