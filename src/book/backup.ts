import { statSync } from 'node:fs'
import { resolve } from 'node:path'
import type { Book } from './book.ts'
import { connect } from './connect.ts'
import { type Counts, countsOf } from './counts.ts'
import { isSame } from './json.ts'
import { draftOf, dropDraft, place, requireFree } from './placing.ts'
import { tableNames } from './tables.ts'
import { bookFault, requireFolder, withSentence } from './trouble.ts'

export interface Backup {
  readonly file: string
  readonly bytes: number
  /** Rows of each table of the copy. */
  readonly counts: Counts
}

/**
 * Copies a book while it may be in use. The copy is one state of the book; it is read again whole and compared before
 * it gets its name.
 *
 * @param to file of the copy; there must be none of that name
 * @throws {FaultError} `book` about the copy: there already, no such folder, disk full, not the same
 */
export const backupBook = (book: Book, to: string): Promise<Backup> =>
  withSentence(to, async () => {
    const path = resolve(to)
    requireFolder(to, path)
    requireFree(path, to)
    const draft = draftOf(path)
    dropDraft(draft)
    try {
      const [before, after] = await copyTo(book, draft)
      const counts = await countsOfWhole(draft)
      if (counts === undefined || !isBetween(counts, before, after)) throw notTheSame(to)
      place(draft, path, to)
      return { file: to, bytes: statSync(path).size, counts }
    } finally {
      dropDraft(draft)
    }
  })

/** Copies one state of the book; the rows before and after bound it, since others may write meanwhile. */
const copyTo = (book: Book, draft: string): Promise<readonly [Counts, Counts]> =>
  book.db.connection().execute(async () => {
    const before = countsOf(book.driver)
    book.driver.prepare('VACUUM INTO ?').run(draft)
    return [before, countsOf(book.driver)] as const
  })

/** Reads the copy whole; undefined where it is damaged. */
async function countsOfWhole(draft: string): Promise<Counts | undefined> {
  const copy = await connect(draft, { waitMs: 0, readOnly: true })
  try {
    return copy.pragma('integrity_check(1)', { simple: true }) === 'ok' ? countsOf(copy) : undefined
  } finally {
    copy.close()
  }
}

/** Tables that only ever grow must lie between; the others only where nothing was written meanwhile. */
function isBetween(copy: Counts, before: Counts, after: Counts): boolean {
  const isStill = isSame(before, after)
  return tableNames.every((table) =>
    isStill || growing.has(table) ? copy[table] >= before[table] && copy[table] <= after[table] : true,
  )
}

const growing: ReadonlySet<string> = new Set([
  'reading',
  'tester_version',
  'part_type',
  'edit',
  'import_log',
  'photo',
  'journal',
  'taken',
])

const notTheSame = (to: string): Error =>
  bookFault(to, 'the copy is not the same as the book', 'Check the disk and try again. The book is as it was.')
