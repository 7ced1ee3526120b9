import type { Book, Driver } from './book.ts'
import { type Tables, tableNames } from './tables.ts'
import { read } from './transaction.ts'

/** Rows of each table. */
export type Counts = Readonly<Record<keyof Tables, number>>

/** How much is in a book. */
export const counts = (book: Book): Promise<Counts> => read(book, async ({ driver }) => countsOf(driver))

/** Counts the rows of each table. */
export function countsOf(driver: Driver): Counts {
  const counted = tableNames.map((table) => [
    table,
    driver.prepare<[], { rows: number }>(`SELECT count(*) AS rows FROM ${table}`).get()?.rows ?? 0,
  ])
  return Object.fromEntries(counted) as Counts
}
