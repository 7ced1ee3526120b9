import { FaultError } from '#core/fault'
import { nearNames } from '#core/text'
import { withGainRank } from './gain-rank.ts'
import type { PartType } from './part-type.ts'
import { plainTypeName, withoutJan } from './type-name.ts'

/** A type found by name. */
export interface TypeMatch {
  readonly partType: PartType
  /**
   * `same`: the number itself; `quality`: a JAN prefix taken off; `short`: a marking without "2S"; `rank`: one of the
   * gain ranks; `suffix`: a suffix taken off that the record does not know.
   */
  readonly how: 'same' | 'quality' | 'short' | 'rank' | 'suffix'
  /** What a person should know where the number was not found as it stood. */
  readonly note?: string
}

export interface TypeSearch {
  readonly found?: TypeMatch
  /** Where nothing was found: type numbers that look alike, best first. */
  readonly near: readonly string[]
}

type ByName = ReadonlyMap<string, PartType>

const indexes = new WeakMap<readonly PartType[], ByName>()

/** Types by plain name; made once for each list. */
function indexOf(types: readonly PartType[]): ByName {
  const known = indexes.get(types)
  if (known !== undefined) return known
  const made = new Map(types.map((t) => [plainTypeName(t.type), t]))
  indexes.set(types, made)
  return made
}

/**
 * Looks a type up by what a person reads off the part: case, blanks and hyphens do not count; a JAN prefix, a missing
 * "2S" of a Japanese number, a gain rank and an unknown suffix are understood and said in the note.
 *
 * @example findType(types, 'c1815-gr').found?.partType.type // '2SC1815GR'
 */
export function findType(types: readonly PartType[], text: string): TypeSearch {
  const byName = indexOf(types)
  const plain = plainTypeName(text)
  const found = plain === '' ? undefined : match(byName, plain)
  if (found !== undefined) return { found, near: [] }
  const names = types.map((t) => t.type)
  return { near: [...new Set([...nearShort(byName, plain), ...nearNames(text, names, 5)])].slice(0, 5) }
}

/**
 * As `findType`, for where a type is needed.
 *
 * @throws {FaultError} `not-found` with the near names
 */
export function needType(types: readonly PartType[], text: string): TypeMatch {
  const { found, near } = findType(types, text)
  if (found !== undefined) return found
  throw new FaultError({
    code: 'not-found',
    what: 'part type',
    name: text,
    near,
    mend: 'Give the number as it stands on the part, or describe the type in a file of your own.',
  })
}

function match(byName: ByName, plain: string): TypeMatch | undefined {
  const same = byName.get(plain)
  if (same !== undefined) return { partType: same, how: 'same' }
  return quality(byName, plain) ?? ranked(byName, plain) ?? short(byName, plain) ?? stripped(byName, plain)
}

function quality(byName: ByName, plain: string): TypeMatch | undefined {
  const jan = withoutJan(plain)
  const inner = jan === undefined ? undefined : match(byName, jan.rest)
  if (jan === undefined || inner === undefined) return undefined
  const note = `${jan.prefix} is a military quality level; its own sheet may hold the part to tighter limits than those of ${inner.partType.type}.`
  return { ...inner, how: inner.how === 'same' ? 'quality' : inner.how, note: joined(note, inner.note) }
}

/** Longest base first, so that a base that is itself a type with suffix wins. */
function ranked(byName: ByName, plain: string): TypeMatch | undefined {
  for (let n = plain.length - 1; n >= 3; n--) {
    const base = byName.get(plain.slice(0, n))
    const rank = base?.gainRanks?.ranks.find((r) => plainTypeName(r.suffix) === plain.slice(n))
    if (base !== undefined && rank !== undefined)
      return {
        partType: withGainRank(base, rank),
        how: 'rank',
        note: `${rank.suffix} is a gain rank of ${base.type}: h_FE ${rank.min} to ${rank.max}.`,
      }
  }
  return undefined
}

/** Letters that begin a Japanese number whose "2S" is left off on the part. */
const shortForm = /^[A-DFHJKM]\d{1,4}/

function short(byName: ByName, plain: string): TypeMatch | undefined {
  if (!shortForm.test(plain)) return undefined
  const inner = match(byName, `2S${plain}`)
  if (inner === undefined) return undefined
  const note = `"2S" is often left off on the part: ${plain} is read as 2S${plain}.`
  return { ...inner, how: inner.how === 'same' ? 'short' : inner.how, note: joined(note, inner.note) }
}

/** Takes an unknown suffix off: letters after the figures, or letters and figures after a known number. */
function stripped(byName: ByName, plain: string): TypeMatch | undefined {
  for (let n = plain.length - 1; n >= Math.max(3, plain.length - 3); n--) {
    const base = byName.get(plain.slice(0, n))
    const suffix = plain.slice(n)
    if (base === undefined || !/^[A-Z]/.test(suffix)) continue
    const variants = base.leads?.variants?.includes(plain) ? ` Leads: ${base.leads.variants}.` : ''
    return {
      partType: base,
      how: 'suffix',
      note: `The suffix ${suffix} is not on record; the limits are those of ${base.type}. Lead order, gain or voltage may differ.${variants}`,
    }
  }
  return undefined
}

/** A marking such as D965 may be 2SD965 or BD965. */
function nearShort(byName: ByName, plain: string): string[] {
  if (!shortForm.test(plain)) return []
  return ['A', 'B'].flatMap((letter) => byName.get(`${letter}${plain}`)?.type ?? [])
}

const joined = (a: string, b: string | undefined): string => (b === undefined ? a : `${a} ${b}`)
