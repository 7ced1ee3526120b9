import type { Driver } from './book.ts'
import { type Tables, tableNames } from './tables.ts'

/** Rows of each table. */
export type Counts = Readonly<Record<keyof Tables, number>>

/** Counts the rows of each table. */
export function countsOf(driver: Driver): Counts {
  const counted = tableNames.map((table) => [
    table,
    driver.prepare<[], { rows: number }>(`SELECT count(*) AS rows FROM ${table}`).get()?.rows ?? 0,
  ])
  return Object.fromEntries(counted) as Counts
}
