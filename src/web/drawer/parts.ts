import type { Drawer, DrawerBlock, DrawerChanges, WordColumn } from '#api'

/** Words that repeat: `words[at[row]]`, -1 where there is none. */
export interface Words {
  readonly words: string[]
  readonly at: Int32Array
  readonly index: Map<string, number>
}

/** Values of one parameter, row by row; NaN where there is none. */
export interface Values {
  readonly unit: string
  readonly value: Float64Array
  /** Standard uncertainty. */
  readonly u: Float64Array
  /** Brought to 25 degC. */
  readonly at25: Float64Array
}

export const wordFields = ['types', 'lots', 'places', 'statuses', 'usedIn', 'reserved', 'verdicts', 'states'] as const
export type WordField = (typeof wordFields)[number]

/** All parts as columns. The columns are written over when something changes; the object itself is then a new one. */
export interface Parts {
  readonly version: number
  readonly count: number
  /** Parts in the book; more than `count` while they are still on their way. */
  readonly total: number
  readonly tags: readonly string[]
  /** Tags in lower case, for searching. */
  readonly low: readonly string[]
  readonly words: Readonly<Record<WordField, Words>>
  readonly notes: Uint8Array
  readonly photos: Uint16Array
  readonly symbols: ReadonlyMap<string, Values>
}

const noWords = (count: number): Words => ({ words: [], at: new Int32Array(count).fill(-1), index: new Map() })
const noNumbers = (count: number): Float64Array => new Float64Array(count).fill(Number.NaN)

function empty(count: number): Parts {
  const words = Object.fromEntries(wordFields.map((f) => [f, noWords(count)])) as Record<WordField, Words>
  return {
    version: 0,
    count,
    total: count,
    tags: new Array<string>(count).fill(''),
    low: new Array<string>(count).fill(''),
    words,
    notes: new Uint8Array(count),
    photos: new Uint16Array(count),
    symbols: new Map(),
  }
}

/** Rows that the columns have room for. */
const roomOf = (parts: Parts): number => parts.notes.length

/** Columns with room for more rows. */
function grown(parts: Parts, count: number): Parts {
  if (count <= roomOf(parts)) return { ...parts, count, total: count }
  const more = empty(count)
  for (const f of wordFields) more.words[f].at.set(parts.words[f].at)
  more.notes.set(parts.notes)
  more.photos.set(parts.photos)
  const symbols = new Map<string, Values>()
  for (const [symbol, v] of parts.symbols) {
    const wide = { unit: v.unit, value: noNumbers(count), u: noNumbers(count), at25: noNumbers(count) }
    for (const key of ['value', 'u', 'at25'] as const) wide[key].set(v[key])
    symbols.set(symbol, wide)
  }
  const words = Object.fromEntries(
    wordFields.map((f) => [f, { ...parts.words[f], at: more.words[f].at }]),
  ) as unknown as Parts['words']
  const fill = new Array<string>(count - parts.tags.length).fill('')
  return { ...more, words, symbols, tags: [...parts.tags, ...fill], low: [...parts.low, ...fill] }
}

/** Number of a word, which is made where it is new. */
function wordNumber(words: Words, word: string): number {
  const known = words.index.get(word)
  if (known !== undefined) return known
  words.index.set(word, words.words.length)
  return words.words.push(word) - 1
}

function putWords(into: Words, from: WordColumn, rows: (i: number) => number): void {
  const numbers = from.words.map((w) => wordNumber(into, w))
  for (let i = 0; i < from.at.length; i++) {
    const at = from.at[i]!
    into.at[rows(i)] = at < 0 ? -1 : numbers[at]!
  }
}

/** Writes a block over rows. */
function put(parts: Parts, block: DrawerBlock, rows: (i: number) => number): void {
  const tags = parts.tags as string[]
  const low = parts.low as string[]
  const symbols = parts.symbols as Map<string, Values>
  const count = block.tags.length
  for (let i = 0; i < count; i++) {
    tags[rows(i)] = block.tags[i]!
    low[rows(i)] = block.tags[i]!.toLowerCase()
    parts.notes[rows(i)] = block.notes[i]!
    parts.photos[rows(i)] = block.photos[i]!
  }
  for (const f of wordFields) putWords(parts.words[f], block[f], rows)
  for (const v of symbols.values()) for (let i = 0; i < count; i++) clear(v, rows(i))
  for (const [symbol, from] of Object.entries(block.symbols)) {
    const into = symbols.get(symbol) ?? noValues(from.unit, roomOf(parts))
    symbols.set(symbol, into)
    for (let i = 0; i < count; i++) {
      into.value[rows(i)] = from.value[i] ?? Number.NaN
      into.u[rows(i)] = from.u[i] ?? Number.NaN
      into.at25[rows(i)] = from.at25[i] ?? Number.NaN
    }
  }
}

const noValues = (unit: string, count: number): Values => ({
  unit,
  value: noNumbers(count),
  u: noNumbers(count),
  at25: noNumbers(count),
})

function clear(v: Values, row: number): void {
  v.value[row] = Number.NaN
  v.u[row] = Number.NaN
  v.at25[row] = Number.NaN
}

/** Columns from the server's list, or its beginning. */
export function partsOf(drawer: Drawer): Parts {
  return withMore({ ...empty(drawer.count), count: 0, version: drawer.version }, drawer)
}

/** With the next blocks of the list; the version stays that of the beginning. */
export function withMore(parts: Parts, drawer: Drawer): Parts {
  let count = parts.count
  for (const block of drawer.blocks) {
    const from = count
    put(parts, block, (i) => from + i)
    count += block.tags.length
  }
  return { ...parts, count }
}

/** Columns after changes. */
export function changed(parts: Parts, changes: DrawerChanges): Parts {
  const wide = grown(parts, changes.count)
  put(wide, changes.block, (i) => changes.rows[i]!)
  return { ...wide, version: changes.version }
}

/** The word of a row, or nothing. */
export function wordAt(parts: Parts, field: WordField, row: number): string {
  const { words, at } = parts.words[field]
  return words[at[row]!] ?? ''
}
