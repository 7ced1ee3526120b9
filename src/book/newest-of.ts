import type { Parameter } from '#core/reduce'
import type { Book } from './book.ts'
import { fromJson, withoutNulls } from './json.ts'
import type { PartStatus } from './part.ts'
import { read } from './transaction.ts'

/** A part in short, with what its newest run gave of some parameters. */
export interface PartInShort {
  readonly tag: string
  readonly type?: string
  readonly place?: string
  readonly status: PartStatus
  readonly usedIn?: string
  /** `measured`, `short` or `open`, as its newest run found it; left out where it was never read. */
  readonly state?: string
  /** Its worst verdict there. */
  readonly word?: string
  readonly parameters: readonly Parameter[]
}

interface Row {
  tag: string
  type: string | null
  place: string | null
  status: PartStatus
  usedIn: string | null
  state: string | null
  word: string | null
  record: string | null
}

/** Parts by their tags, in the order in which they came; one that is not there is left out. */
export const partsInShort = (
  book: Book,
  tags: readonly string[],
  symbols: readonly string[],
): Promise<ReadonlyMap<string, PartInShort>> =>
  read(book, async ({ driver }) => {
    const rows = driver
      .prepare<[{ tags: string; symbols: string }], Row>(
        `SELECT part.tag, part.type, part.place, part.status, part.used_in AS usedIn, newest.state,
           newest.verdict AS word, parameter.record
         FROM part LEFT JOIN newest ON newest.part = part.id
           LEFT JOIN parameter ON parameter.part = part.id AND parameter.run = newest.run
             AND parameter.symbol IN (SELECT value FROM json_each(@symbols))
         WHERE part.tag IN (SELECT value FROM json_each(@tags)) ORDER BY part.id, parameter.id`,
      )
      .iterate({ tags: JSON.stringify(tags), symbols: JSON.stringify(symbols) })
    const found = new Map<string, Omit<PartInShort, 'parameters'> & { parameters: Parameter[] }>()
    for (const { record, ...row } of rows) {
      if (!found.has(row.tag)) found.set(row.tag, { ...withoutNulls(row), parameters: [] })
      if (record !== null) found.get(row.tag)!.parameters.push(fromJson<Parameter>(record))
    }
    return found
  })
