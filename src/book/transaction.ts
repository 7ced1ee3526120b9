import type { Kysely } from 'kysely'
import type { Book, Driver } from './book.ts'
import type { Tables } from './tables.ts'
import { withSentence } from './trouble.ts'

/** What a step of work has in hand: queries and, for bulk, the connection itself; both in one open transaction. */
export interface Work {
  readonly db: Kysely<Tables>
  readonly driver: Driver
}

/** Reads from one state of the book, whatever others write meanwhile. */
export const read = <T>(book: Book, body: (work: Work) => Promise<T>): Promise<T> => transact(book, 'BEGIN', body)

/**
 * Writes in one transaction that takes its turn at once, so that two programs cannot get in each other's way halfway.
 * When it returns, what was written is on the disk; when it throws, nothing was.
 */
export const write = <T>(book: Book, body: (work: Work) => Promise<T>): Promise<T> =>
  transact(book, 'BEGIN IMMEDIATE', body)

function transact<T>(book: Book, begin: string, body: (work: Work) => Promise<T>): Promise<T> {
  const { driver } = book
  return withSentence(book.file, () =>
    book.db.connection().execute(async (db) => {
      driver.exec(begin)
      try {
        const done = await body({ db, driver })
        driver.exec('COMMIT')
        return done
      } finally {
        if (driver.inTransaction) driver.exec('ROLLBACK')
      }
    }),
  )
}
