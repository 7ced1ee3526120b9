import type { Hit } from '#api'
import { findType, type PartType, searchTypes } from '#core/device'

/** Something one can go to. */
export interface Place {
  readonly kind: Hit['kind']
  readonly name: string
  readonly say: string
  readonly part?: string
  readonly run?: number
  readonly job?: number
}

/** A tester as the field needs it. */
export interface KnownTester {
  readonly id: string
  readonly name: string
}

const mostOfAKind = 8

const plain = (text: string): string => text.toLowerCase().replaceAll(/[^a-z0-9]/g, '')

/** What is found without asking the server: types by number, testers by name. */
export function placesHere(q: string, types: readonly PartType[], testers: readonly KnownTester[]): readonly Place[] {
  const wanted = plain(q)
  if (wanted === '') return []
  const named = types.filter((t) => plain(t.type).startsWith(wanted))
  const meant = findType(types, q).found
  const about = named.length >= mostOfAKind ? [] : searchTypes(types, { text: q })
  const found = new Set([
    ...(meant === undefined ? [] : [meant.partType.type]),
    ...[...named, ...about].map((t) => t.type),
  ])
  const typePlaces = [...found].slice(0, mostOfAKind).map((name): Place => {
    const t = types.find((one) => one.type === name)
    return {
      kind: 'type',
      name,
      say: [
        [t?.material, t?.polarity, t?.family === 'bjt' ? 'transistor' : t?.family].filter(Boolean).join(' '),
        t?.outline,
      ]
        .filter(Boolean)
        .join(', '),
    }
  })
  const testerPlaces = testers
    .filter((t) => plain(t.name).includes(wanted) || plain(t.id).includes(wanted))
    .map((t): Place => ({ kind: 'tester', name: t.id, say: t.name }))
  return [...typePlaces, ...testerPlaces]
}

const order: readonly Place['kind'][] = ['part', 'type', 'lot', 'job', 'tester', 'run', 'reading']

/**
 * Places from here and from the book, each once: those whose name begins with what was typed first, then kind by kind.
 * Types are all known here, so those that the book finds are left out.
 */
export function merged(q: string, here: readonly Place[], found: readonly Hit[]): readonly Place[] {
  const isKnown = here.some((p) => p.kind === 'type')
  const seen = new Map<string, Place>()
  for (const p of [...here, ...found.filter((h) => !isKnown || h.kind !== 'type')])
    if (!seen.has(placeKey(p))) seen.set(placeKey(p), p as Place)
  const rank = (p: Place): number => (plain(p.name).startsWith(plain(q)) ? 0 : order.length) + order.indexOf(p.kind)
  return [...seen.values()].sort((a, b) => rank(a) - rank(b))
}

export const placeKey = (p: Place | Hit): string =>
  `${p.kind} ${p.name} ${p.part ?? ''} ${p.run ?? ''} ${p.kind === 'reading' ? p.say : ''}`

/** Where a place is in the page. */
export type Goal =
  | { readonly to: '/parts/$tag'; readonly params: { readonly tag: string } }
  | { readonly to: '/types/$type'; readonly params: { readonly type: string } }
  | { readonly to: '/testers/$id'; readonly params: { readonly id: string } }
  | { readonly to: '/run/$id'; readonly params: { readonly id: string } }
  | { readonly to: '/jobs/$id'; readonly params: { readonly id: string } }
  | { readonly to: '/drawer'; readonly search: { readonly lot: string } }

export function goalOf(p: Place): Goal {
  switch (p.kind) {
    case 'part':
      return { to: '/parts/$tag', params: { tag: p.name } }
    case 'type':
      return { to: '/types/$type', params: { type: p.name } }
    case 'tester':
      return { to: '/testers/$id', params: { id: p.name } }
    case 'lot':
      return { to: '/drawer', search: { lot: p.name } }
    case 'run':
      return { to: '/run/$id', params: { id: String(p.run ?? p.name) } }
    case 'job':
      return { to: '/jobs/$id', params: { id: String(p.job ?? p.name) } }
    case 'reading':
      return { to: '/parts/$tag', params: { tag: p.part ?? p.name } }
  }
}

export const kindNames: Readonly<Record<Place['kind'], string>> = {
  part: 'part',
  type: 'part type',
  lot: 'lot',
  job: 'job',
  tester: 'tester',
  run: 'run',
  reading: 'note',
}
