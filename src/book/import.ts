import { createHash } from 'node:crypto'
import type { Kysely } from 'kysely'
import { FaultError } from '#core/fault'
import type { Reading } from '#core/tester'
import type { Book } from './book.ts'
import { lotNumber } from './lot.ts'
import { requireSound } from './reading.ts'
import { insertReadings } from './reading-rows.ts'
import { insertRun, type Run, type RunStart, runByNumber } from './run.ts'
import type { Tables } from './tables.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** A file whose readings came into the book. */
export interface Import {
  readonly file: string
  readonly hash: string
  readonly rows: number
  readonly run: number
  readonly at: string
}

/** Readings of one file: they become one finished run. */
export interface Importing extends RunStart {
  readonly readings: readonly Reading[]
  /** Name of the file they come from. */
  readonly from: string
  /** `contentHash` of the file. */
  readonly hash: string
  /** Lot that the parts of the file belong to from now on; a new one is made. */
  readonly lot?: string
  /** Takes a file again that was imported before. */
  readonly again?: boolean
}

/** What a file is known by when it comes a second time: SHA-256 of its bytes, in hexadecimal digits. */
export const contentHash = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex')

/**
 * Takes the readings of a file in one transaction: all of them or none. When the promise is kept they are on the disk.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `usage` where the same file was imported before; `not-found` no such tester; `bad-input`
 */
export const importReadings = (book: Book, given: Importing, at: string): Promise<Run> =>
  write(book, async (work) => {
    const { db, driver } = work
    requireTime(at)
    requireSound(given.readings)
    const { readings, from, hash, lot, again, ...start } = given
    if (again !== true) await requireNew(db, from, hash)
    const run = await insertRun(db, start, { state: 'finished', startedAt: at, finishedAt: at })
    insertReadings(driver, run, readings, at)
    if (lot !== undefined) await putIntoLot(work, { run, lot }, at)
    await db.insertInto('import_log').values({ file: from, hash, rows: readings.length, run, at }).execute()
    return runByNumber(db, run)
  })

/** Puts the parts of a run into a lot, and keeps where they were before as edits. */
async function putIntoLot({ db, driver }: Work, given: { readonly run: number; readonly lot: string }, at: string) {
  const lot = await lotNumber(db, given.lot, at)
  const parts = 'SELECT DISTINCT part FROM reading WHERE run = ?'
  driver
    .prepare(
      `INSERT INTO edit (part, field, old, new, at)
       SELECT part.id, 'lot', (SELECT name FROM lot WHERE lot.id = part.lot), ?, ? FROM part
       WHERE part.id IN (${parts}) AND part.lot IS NOT ?`,
    )
    .run(given.lot, at, given.run, lot)
  driver.prepare(`UPDATE part SET lot = ? WHERE id IN (${parts})`).run(lot, given.run)
}

/** Files imported so far, oldest first; only those of one content where its hash is given. */
export const imports = (book: Book, hash?: string): Promise<Import[]> =>
  read(book, ({ db }) => {
    const all = db.selectFrom('import_log').select(['file', 'hash', 'rows', 'run', 'at']).orderBy('id')
    return (hash === undefined ? all : all.where('hash', '=', hash)).execute()
  })

async function requireNew(db: Kysely<Tables>, from: string, hash: string): Promise<void> {
  const before = await db.selectFrom('import_log').selectAll().where('hash', '=', hash).executeTakeFirst()
  if (before === undefined) return
  const named = before.file === from ? '' : ` as ${before.file}`
  throw new FaultError({
    code: 'usage',
    problem: `${from} was imported before${named}: run ${before.run}, ${before.rows} readings, ${before.at}`,
    mend: 'Nothing was added. If they really are new readings, say so with --again.',
  })
}
