import type Sqlite from 'better-sqlite3'
import type { Kysely } from 'kysely'
import type { Tables } from './tables.ts'

export type Driver = Sqlite.Database

/**
 * An open book: one file, one connection. Open it with `openBook`, close it with `closeBook`, and hold one of them per
 * file in a process. Calls on it may overlap; they are taken one after the other.
 */
export interface Book {
  /** The file as it was named. */
  readonly file: string
  readonly path: string
  /** Queries; `driver` is the connection under it, for bulk inserts and pragmas. */
  readonly db: Kysely<Tables>
  readonly driver: Driver
}
