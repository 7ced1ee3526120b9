import { nearNames } from '#core/text'
import { type ReadingKind, readingKinds } from './tester.ts'

const plain = (text: string): string => text.toLowerCase().replaceAll(/[\s_.\-()]+/g, '')

/** Other words for a reading, besides its symbol in any case and spacing. */
const alsoCalled: Readonly<Record<string, ReadingKind>> = {
  beta: 'h_FE',
  gain: 'h_FE',
  shortcheck: 'short',
  vcesat: 'V_CE(sat)',
}

const kinds: ReadonlyMap<string, ReadingKind> = new Map([
  ...readingKinds.map((k) => [plain(k), k] as const),
  ...Object.entries(alsoCalled),
])

export type KindRead =
  | { readonly ok: true; readonly reads: ReadingKind }
  | { readonly ok: false; readonly problem: string; readonly mend: string }

/**
 * What a text says was read: the symbol in any case, with or without underscores.
 *
 * @example readingKindOf('iceo') // { ok: true, reads: 'I_CEO' }
 */
export function readingKindOf(text: string): KindRead {
  const reads = kinds.get(plain(text))
  if (reads !== undefined) return { ok: true, reads }
  const near = nearNames(text, readingKinds, 1)
  const all = `Write one of: ${readingKinds.join(', ')}.`
  return {
    ok: false,
    problem: text === '' ? 'is empty' : 'is not something that is read here',
    mend: near.length > 0 ? `Did you mean ${near[0]}? ${all}` : all,
  }
}
