import {
  type Family,
  findType,
  type Material,
  type PartType,
  type Polarity,
  searchTypes,
  type TypeQuery,
} from '#core/device'
import { readWants, type WantsRead } from './wants.ts'

/** What a person asks the list for; every field as it stands in the address. */
export interface Asked {
  readonly q: string
  readonly kind: string
  readonly polarity: string
  readonly material: string
  readonly outline: string
  readonly limits: string
}

export const nothingAsked: Asked = { q: '', kind: '', polarity: '', material: '', outline: '', limits: '' }

export interface TypesFound {
  readonly types: readonly PartType[]
  readonly wants: WantsRead
  /** A number that means one of the types though it is not written as it stands: with what it means. */
  readonly meant?: { readonly type: string; readonly note: string }
  /** Where nothing was found: numbers that look alike. */
  readonly near: readonly string[]
}

const given = <T extends string>(text: string): T | undefined => (text === '' ? undefined : (text as T))

/** Types that answer, those whose number begins with what was typed first. */
export function findTypes(types: readonly PartType[], asked: Asked): TypesFound {
  const wants = readWants(asked.limits)
  const text = asked.q.trim()
  const query: Record<string, unknown> = {
    text: given(text),
    family: given<Family>(asked.kind),
    polarity: given<Polarity>(asked.polarity),
    material: given<Material>(asked.material),
    outline: given(asked.outline.trim()),
    within: wants.within,
  }
  const found = searchTypes(
    types,
    Object.fromEntries(Object.entries(query).filter(([, v]) => v !== undefined)) as TypeQuery,
  )
  const search = text === '' ? undefined : findType(types, text)
  const match = search?.found
  return {
    types: text === '' ? usualOrder(found) : firstThose(found, text),
    wants,
    ...(match?.note === undefined ? {} : { meant: { type: match.partType.type, note: match.note } }),
    near: found.length === 0 ? (search?.near ?? []) : [],
  }
}

const plain = (text: string): string => text.toUpperCase().replaceAll(/[^A-Z0-9]/g, '')

function firstThose(found: readonly PartType[], text: string): readonly PartType[] {
  const wanted = plain(text)
  if (wanted === '') return found
  const rank = (t: PartType): number => {
    const name = plain(t.type)
    if (name === wanted) return 0
    return name.startsWith(wanted) ? 1 : name.includes(wanted) ? 2 : 3
  }
  return [...found].sort((a, b) => rank(a) - rank(b))
}

const familyOrder: readonly Family[] = ['bjt', 'diode', 'jfet', 'mosfet', 'ujt', 'scr', 'triac', 'zener']

/** Transistors before the rest, germanium before silicon, records without limits last. */
function usualOrder(found: readonly PartType[]): readonly PartType[] {
  const rank = (t: PartType): number =>
    familyOrder.indexOf(t.family) * 4 + (t.material === 'Ge' ? 0 : 2) + (t.limits.length === 0 ? 1 : 0)
  return [...found].sort((a, b) => rank(a) - rank(b))
}

/** Case outlines that occur, the commonest first. */
export function outlinesOf(types: readonly PartType[]): readonly string[] {
  const count = new Map<string, number>()
  for (const t of types) {
    const name = /[A-Z]+-\d+[A-Z]*/.exec((t.outline ?? '').toUpperCase())?.[0]
    if (name !== undefined) count.set(name, (count.get(name) ?? 0) + 1)
  }
  return [...count].sort((a, b) => b[1] - a[1]).map(([name]) => name)
}
