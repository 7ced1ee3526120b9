import type { Driver } from './book.ts'
import { bookFault, codeOf } from './trouble.ts'

export interface ConnectOptions {
  /** How long to wait for another program that is writing, ms. */
  readonly waitMs: number
  readonly create?: boolean
  readonly readOnly?: boolean
}

/** Opens the file with SQLite, which is loaded only now: a program that opens no book never loads it. */
export async function connect(path: string, options: ConnectOptions): Promise<Driver> {
  const { default: Sqlite } = await import('better-sqlite3')
  return new Sqlite(path, {
    timeout: options.waitMs,
    fileMustExist: options.create !== true,
    readonly: options.readOnly === true,
  })
}

/**
 * How a book is used: changes go to a write-ahead file first and are on the disk before a step counts as done; links
 * between rows are held; nothing written inside the file can call functions that reach outside.
 */
export function settle(driver: Driver, file: string): void {
  driver.pragma('trusted_schema = OFF')
  if (driver.pragma('journal_mode = WAL', { simple: true }) !== 'wal')
    throw bookFault(
      file,
      'its folder does not allow the shared memory that a book in use needs',
      'Keep the book on a disk of this computer, not on a network share.',
    )
  driver.pragma('synchronous = FULL')
  driver.pragma('fullfsync = ON')
  driver.pragma('checkpoint_fullfsync = ON')
  driver.pragma('foreign_keys = ON')
}

/**
 * Brings the write-ahead file into the book as far as nobody is in the way, and lets go. What has to stay there, because
 * another program is reading or the disk is full, is safe: the next opening takes it up.
 */
export function disconnect(driver: Driver): void {
  if (!driver.open) return
  try {
    driver.pragma('wal_checkpoint(PASSIVE)')
  } catch (error) {
    if (!codeOf(error).startsWith('SQLITE_')) throw error
  } finally {
    driver.close()
  }
}

/** The number of the last migration the book has been through. */
export const versionOf = (driver: Driver): number => driver.pragma('user_version', { simple: true }) as number
