import type { Book } from './book.ts'
import { versionOf } from './connect.ts'
import { fromJson } from './json.ts'
import type { PartStatus } from './part.ts'
import { read } from './transaction.ts'

/** A book in short. */
export interface BookSummary {
  readonly parts: number
  readonly runs: number
  readonly openRuns: number
  readonly readings: number
  readonly testers: number
  readonly ownTypes: number
  readonly photos: number
  readonly version: number
  /** Number of its last migration. */
  readonly structure: number
  readonly madeAt?: string
}

/** How much is in a book, without reading it whole. */
export const bookSummary = (book: Book): Promise<BookSummary> =>
  read(book, async ({ driver }) => {
    const counts = driver
      .prepare<[], Omit<BookSummary, 'structure' | 'madeAt'>>(
        `SELECT (SELECT count(*) FROM part) AS parts, (SELECT count(*) FROM run) AS runs,
           (SELECT count(*) FROM run WHERE state = 'open') AS openRuns, (SELECT count(*) FROM reading) AS readings,
           (SELECT count(*) FROM tester) AS testers, (SELECT count(DISTINCT type) FROM part_type) AS ownTypes,
           (SELECT count(*) FROM photo WHERE removed = 0) AS photos,
           (SELECT coalesce(max(version), 0) FROM touched) AS version`,
      )
      .get() as Omit<BookSummary, 'structure' | 'madeAt'>
    const made = driver.prepare<[], string>("SELECT value FROM setting WHERE name = 'made'").pluck().get()
    return {
      ...counts,
      structure: versionOf(driver),
      ...(made === undefined ? {} : { madeAt: fromJson<string>(made) }),
    }
  })

/** How many parts of a type there are. */
export const partsOfType = (book: Book, type: string): Promise<number> =>
  read(
    book,
    async ({ driver }) =>
      driver.prepare<[string], number>('SELECT count(*) FROM part WHERE type = ?').pluck().get(type) ?? 0,
  )

/** Parts of these are there to be used. */
export const usableStatuses: readonly PartStatus[] = ['kept', 'good', 'doubtful']

/** How many parts of each type there are to be used; types as they were typed. */
export const usablePartsByType = (book: Book): Promise<ReadonlyMap<string, number>> =>
  read(
    book,
    async ({ driver }) =>
      new Map(
        driver
          .prepare<[string], readonly [string, number]>(
            `SELECT type, count(*) FROM part
             WHERE type IS NOT NULL AND status IN (SELECT value FROM json_each(?)) GROUP BY type ORDER BY type`,
          )
          .raw()
          .all(JSON.stringify(usableStatuses)) as (readonly [string, number])[],
      ),
  )
