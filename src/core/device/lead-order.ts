import type { PartType } from './part-type.ts'

/**
 * The sentence to say when the lead order of a type is not settled; undefined where it is.
 *
 * @example leadOrderDoubt(bc182) // 'The leads of BC182 come in other orders too (BC182L, ...: E-C-B). ...'
 */
export function leadOrderDoubt(t: PartType): string | undefined {
  const { leads } = t
  if (leads === undefined)
    return `The lead order of ${t.type} is not on record. Find the base by a junction test before you connect it.`
  const known = leads.variants === undefined ? '' : ` (${leads.variants})`
  if (leads.order === 'verify')
    return `The lead order of ${t.type} is not settled${known}. Find the leads by a junction test before you connect it.`
  if (leads.variants === undefined) return undefined
  return `The leads of ${t.type} are ${leads.order}, but that is not sure${known}. If the first readings look odd, suspect another lead order.`
}
