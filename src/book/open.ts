import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import type { Book, Driver } from './book.ts'
import { connect, disconnect, settle } from './connect.ts'
import { applicationId, inspectFile } from './header.ts'
import { applySteps, migrate } from './migrate.ts'
import { type Migration, migrations } from './migrations/index.ts'
import { draftOf, dropDraft, place, requireFree } from './placing.ts'
import type { Tables } from './tables.ts'
import { requireTime } from './time.ts'
import { bookFault, requireFolder, withSentence } from './trouble.ts'

export interface OpenOptions {
  /** Makes the book where there is none; the date and time it says it was made. */
  readonly createAt?: string
  /** How long to wait for another program that is writing, ms. */
  readonly waitMs?: number
}

export const openDefaults = { waitMs: 5000 } as const satisfies OpenOptions

/**
 * Opens a book, bringing an older one up to date after copying it.
 *
 * @throws {FaultError} `book`: what is wrong with the file and what to do; the file is as it was
 * @example const book = await openBook('bench.germane')
 */
export const openBook = (file: string, options: OpenOptions = {}): Promise<Book> => openWith(file, migrations, options)

/**
 * Makes a new book and opens it. It appears under its name only when it is whole.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `book`: a file of that name is there, no such folder, no right to write, disk full
 */
export async function createBook(file: string, at: string): Promise<Book> {
  await buildBook(file, migrations, (driver) => markMade(driver, at))
  return openBook(file)
}

/** `openBook` with the migrations it is to know, so that later and failing ones can be tried. */
export async function openWith(file: string, steps: readonly Migration[], options: OpenOptions = {}): Promise<Book> {
  const path = resolve(file)
  const { createAt } = options
  if (createAt !== undefined && !existsSync(path))
    await buildBook(file, steps, (driver) => markMade(driver, createAt)).catch((error: unknown) => {
      // another process may have made it in the meantime: then it is simply opened
      if (!existsSync(path)) throw error
    })
  return withSentence(file, async () => {
    const isShort = inspectFile(file, path, steps.length)
    const driver = await connect(path, { waitMs: options.waitMs ?? openDefaults.waitMs })
    try {
      if (isShort) requireWhole(driver, file)
      await migrateThenSettle(driver, path, file, steps)
      return await handle(driver, path, file)
    } catch (error) {
      driver.close()
      throw error
    }
  })
}

/** Lets go of a book; what was in its write-ahead file is brought into the book itself. */
export function closeBook(book: Book): Promise<void> {
  return withSentence(book.file, () => disconnect(book.driver))
}

/**
 * Makes a book under another name, fills it in one transaction and gives it its own name only when it is on the disk.
 */
export async function buildBook(
  file: string,
  steps: readonly Migration[],
  fill: (driver: Driver) => void,
): Promise<void> {
  const path = resolve(file)
  await withSentence(file, async () => {
    requireFolder(file, path)
    requireFree(path, file)
    const draft = draftOf(path)
    dropDraft(draft)
    try {
      await makeDraft(draft, file, steps, fill)
      place(draft, path, file)
    } finally {
      dropDraft(draft)
    }
  })
}

async function makeDraft(
  draft: string,
  file: string,
  steps: readonly Migration[],
  fill: (driver: Driver) => void,
): Promise<void> {
  const driver = await connect(draft, { waitMs: openDefaults.waitMs, create: true })
  try {
    settle(driver, file)
    driver.transaction(() => {
      driver.pragma(`application_id = ${applicationId}`)
      applySteps(driver, file, steps)
      fill(driver)
    })()
    driver.pragma('wal_checkpoint(TRUNCATE)')
  } finally {
    driver.close()
  }
}

function markMade(driver: Driver, at: string): void {
  requireTime(at)
  driver.prepare("INSERT INTO setting (name, value) VALUES ('made', ?)").run(JSON.stringify(at))
}

async function migrateThenSettle(driver: Driver, path: string, file: string, steps: readonly Migration[]) {
  driver.prepare('SELECT count(*) FROM sqlite_schema').get()
  settle(driver, file)
  await migrate(driver, path, file, steps)
}

/** A file shorter than it says, whose write-ahead file may make up for it. */
function requireWhole(driver: Driver, file: string): void {
  if (driver.pragma('quick_check(1)', { simple: true }) === 'ok') return
  throw bookFault(file, 'is cut short', 'Keep this file as it is and go on with the newest backup.')
}

async function handle(driver: Driver, path: string, file: string): Promise<Book> {
  const { Kysely, SqliteDialect } = await import('kysely')
  return { file, path, driver, db: new Kysely<Tables>({ dialect: new SqliteDialect({ database: driver }) }) }
}
