import type { Book } from './book.ts'
import type { Changed } from './edit.ts'
import type { RowChange } from './job-rows.ts'
import { fromJson, toJson, withoutNulls } from './json.ts'
import { requireTime } from './time.ts'
import { read, type Work } from './transaction.ts'
import type { UpkeepTable } from './upkeep.ts'

export const changeKinds = ['part', 'part type', 'tester', 'photo', 'reading', 'upkeep', 'job', 'mark'] as const
export type ChangeKind = (typeof changeKinds)[number]

/** Version of a thing that has versions before and after an edit; null where there is none. */
export interface VersionChange {
  readonly name: string
  readonly before: number | null
  readonly after: number | null
}

/** What an edit changed, as far as it takes to undo it. */
export type Change =
  | { readonly kind: 'part'; readonly parts: readonly { readonly tag: string; readonly changed: Changed }[] }
  | { readonly kind: 'part type' | 'tester'; readonly versions: readonly VersionChange[] }
  /** Of a part, or of a job by its number. */
  | {
      readonly kind: 'photo'
      readonly photo: number
      readonly part?: string
      readonly job?: number
      readonly removed: boolean
    }
  /** Rows of a job, and what changed of parts with them. */
  | {
      readonly kind: 'job'
      readonly job: number
      readonly rows: readonly RowChange[]
      /** Parts whose row in the drawer changes with it. */
      readonly tags: readonly string[]
      readonly parts: readonly { readonly tag: string; readonly changed: Changed }[]
    }
  /** A record of a tester as found, or a check standard of it. */
  | {
      readonly kind: 'upkeep'
      readonly what: UpkeepTable
      readonly row: number
      readonly tester: string
      readonly removed: boolean
    }
  /** A word a person marked something with, under a setting of the book; null where there is none. */
  | {
      readonly kind: 'mark'
      readonly setting: string
      readonly of: string
      readonly before: string | null
      readonly after: string | null
    }
  /** A correction: `reading` took the place of `replaced`. */
  | {
      readonly kind: 'reading'
      readonly run: number
      readonly part: string
      readonly reading: number
      readonly replaced: number
    }

/** An edit of the journal. Undoing one is an edit as well, so it can be undone in turn. */
export interface JournalEntry {
  readonly id: number
  readonly kind: ChangeKind
  /** One sentence. */
  readonly say: string
  readonly at: string
  /** Number of the edit that this one undoes. */
  readonly undoes?: number
  /** Number of the edit that undid this one. */
  readonly undoneBy?: number
}

export interface NewEntry {
  readonly change: Change
  readonly say: string
  readonly undoes?: number
}

/** Writes an edit down inside the transaction that makes it; gives its number. */
export function enter({ driver }: Work, { change, say, undoes }: NewEntry, at: string): number {
  requireTime(at)
  const { kind, ...rest } = change
  const row = [kind, say, toJson(rest, 'change'), undoes ?? null, at]
  const add = driver.prepare('INSERT INTO journal (kind, say, change, undoes, at) VALUES (?, ?, ?, ?, ?)')
  return Number(add.run(...row).lastInsertRowid)
}

/** Edits that can be undone, newest first. */
export const journal = (book: Book, limit = 100): Promise<JournalEntry[]> =>
  read(book, async (work) => entries(work, 'ORDER BY journal.id DESC LIMIT ?', limit).map(({ entry }) => entry))

interface EntryRow {
  readonly id: number
  readonly kind: ChangeKind
  readonly say: string
  readonly change: string
  readonly undoes: number | null
  readonly undoneBy: number | null
  readonly at: string
}

/** Entries with what they changed. */
export function entries({ driver }: Work, tail: string, ...given: number[]) {
  const rows = driver
    .prepare<number[], EntryRow>(
      `SELECT journal.*, undoing.id AS undoneBy FROM journal LEFT JOIN journal AS undoing ON undoing.undoes = journal.id ${tail}`,
    )
    .all(...given)
  return rows.map(({ change, ...row }) => ({
    entry: withoutNulls(row) as JournalEntry,
    change: { kind: row.kind, ...fromJson<object>(change) } as Change,
  }))
}

/** An entry by its number, with what it changed. */
export const entryByNumber = (work: Work, id: number) => entries(work, 'WHERE journal.id = ?', id)[0]
