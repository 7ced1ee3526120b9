import { usablePartsByType } from '#book'
import { findType } from '#core/device'
import type { Bench } from './bench.ts'

/** How many usable parts of each known type the book holds; of none where no book is open. */
export async function heldTypes(bench: Bench): Promise<ReadonlyMap<string, number>> {
  const held = new Map<string, number>()
  if (bench.book === undefined) return held
  for (const [name, count] of await usablePartsByType(bench.book)) {
    const type = findType(bench.types, name).found?.partType.type
    if (type !== undefined) held.set(type, (held.get(type) ?? 0) + count)
  }
  return held
}
