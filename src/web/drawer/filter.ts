import { parseValue } from '#core/quantity'
import { keepOutcome } from './outcome.ts'
import { type Parts, type Values, type WordField, wordFields } from './parts.ts'

/** What to show. Everything given must hold. */
export interface Filter {
  /** Words, and comparisons such as `h_FE>100` or `I_CEO<200u`. */
  readonly text: string
  /** Exact words of columns. */
  readonly words: Readonly<Partial<Record<WordField, string>>>
  /** How it came out: `conforms`, `short`, `not judged`; empty or left out for any. */
  readonly outcome?: string
}

/** A comparison of one parameter, in SI units. */
export interface Comparison {
  readonly symbol: string
  readonly min: number
  readonly max: number
  readonly isOpen: boolean
}

export interface Asked {
  readonly words: readonly string[]
  readonly comparisons: readonly Comparison[]
}

/** A symbol as people type it: `hfe`, `ICEO`, `vbe`. */
const plain = (symbol: string): string => symbol.toLowerCase().replaceAll(/[^a-z0-9]/g, '')

/** Takes a filter's text apart; a comparison of something unknown, or only half typed, is passed over. */
export function readFilter(text: string, symbols: ReadonlyMap<string, Values>): Asked {
  const comparisons: Comparison[] = []
  const rest = text.replaceAll(/([A-Za-z][\w()]*)\s*(<=|>=|<|>|=)\s*([^\s<>=]*)/g, (_, name, sign, typed) => {
    const symbol = [...symbols.keys()].find((s) => plain(s) === plain(name))
    const value = numberOf(typed)
    if (symbol !== undefined && value !== undefined) comparisons.push(comparison(symbol, sign, value))
    return ' '
  })
  return {
    words: rest
      .toLowerCase()
      .split(/\s+/)
      .filter((w) => w !== ''),
    comparisons,
  }
}

function numberOf(typed: string): number | undefined {
  const parsed = parseValue(typed)
  if (parsed.ok) return parsed.value
  const bare = parseValue(`${typed}A`)
  return bare.ok ? bare.value : undefined
}

function comparison(symbol: string, sign: string, value: number): Comparison {
  const isOpen = sign === '<' || sign === '>'
  if (sign.startsWith('<')) return { symbol, min: Number.NEGATIVE_INFINITY, max: value, isOpen }
  if (sign.startsWith('>')) return { symbol, min: value, max: Number.POSITIVE_INFINITY, isOpen }
  return { symbol, min: value * (1 - 0.005), max: value * (1 + 0.005), isOpen: false }
}

/** For each word of a column whether it holds the text. */
const hits = (words: readonly string[], text: string): Uint8Array =>
  Uint8Array.from(words, (w) => (w.toLowerCase().includes(text) ? 1 : 0))

/** Rows that answer, marked with 1. */
export function matching(parts: Parts, filter: Filter): Uint8Array {
  const keep = new Uint8Array(parts.count).fill(1)
  const asked = readFilter(filter.text, parts.symbols)
  for (const f of wordFields) keepWord(parts, f, filter.words[f], keep)
  if (filter.outcome !== undefined && filter.outcome !== '') keepOutcome(parts, filter.outcome, keep)
  for (const c of asked.comparisons) keepWithin(parts.symbols.get(c.symbol)!, c, keep)
  for (const w of asked.words) keepSaying(parts, w, keep)
  return keep
}

function keepWord(parts: Parts, field: WordField, word: string | undefined, keep: Uint8Array): void {
  if (word === undefined || word === '') return
  const { index, at } = parts.words[field]
  const wanted = index.get(word) ?? -2
  for (let i = 0; i < keep.length; i++) if (at[i] !== wanted) keep[i] = 0
}

function keepWithin({ value }: Values, { min, max, isOpen }: Comparison, keep: Uint8Array): void {
  for (let i = 0; i < keep.length; i++) {
    const v = value[i]!
    const isIn = isOpen ? v > min && v < max : v >= min && v <= max
    if (!isIn) keep[i] = 0
  }
}

function keepSaying(parts: Parts, text: string, keep: Uint8Array): void {
  const found = new Uint8Array(parts.count)
  for (const f of wordFields) {
    const { words, at } = parts.words[f]
    const hit = hits(words, text)
    if (hit.includes(1)) for (let i = 0; i < found.length; i++) if (at[i]! >= 0 && hit[at[i]!] === 1) found[i] = 1
  }
  markTags(parts, text, found)
  for (let i = 0; i < keep.length; i++) if (found[i] === 0) keep[i] = 0
}

/** All tags as one text, which is searched much faster than each by itself, and where each begins. */
interface TagText {
  readonly text: string
  readonly starts: Int32Array
}

const tagTexts = new WeakMap<Parts, TagText>()

function tagText(parts: Parts): TagText {
  const known = tagTexts.get(parts)
  if (known !== undefined) return known
  const starts = new Int32Array(parts.count + 1)
  for (let i = 0; i < parts.count; i++) starts[i + 1] = starts[i]! + parts.low[i]!.length + 1
  const made = { text: parts.low.slice(0, parts.count).join('\n'), starts }
  tagTexts.set(parts, made)
  return made
}

function markTags(parts: Parts, wanted: string, found: Uint8Array): void {
  const { text, starts } = tagText(parts)
  let row = 0
  for (let at = text.indexOf(wanted); at >= 0; at = text.indexOf(wanted, starts[row]!)) {
    while (row < parts.count && starts[row + 1]! <= at) row += 1
    found[row] = 1
    row += 1
    if (row >= parts.count) return
  }
}
