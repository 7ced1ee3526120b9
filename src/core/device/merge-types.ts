import type { PartType } from './part-type.ts'
import { plainTypeName } from './type-name.ts'

/**
 * A catalog with a person's own types: an own record takes the place of the one with the same number, others are added
 * at the end.
 */
export function mergeTypes(catalog: readonly PartType[], own: readonly PartType[]): readonly PartType[] {
  const byName = new Map(own.map((t) => [plainTypeName(t.type), t]))
  const kept = catalog.map((t) => {
    const name = plainTypeName(t.type)
    const mine = byName.get(name)
    byName.delete(name)
    return mine ?? t
  })
  return [...kept, ...byName.values()]
}
