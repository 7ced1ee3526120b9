import type { Kysely } from 'kysely'
import type { Tester } from '#core/tester'
import type { Book } from './book.ts'
import { fromJson, isSame, toJson, withoutNulls } from './json.ts'
import { notInBook } from './missing.ts'
import type { Tables } from './tables.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'
import { namesOut, putBack } from './withdrawn.ts'

/** A tester as the book holds it. An edit makes a new version; runs keep the one they were taken with. */
export interface TesterVersion {
  readonly tester: Tester
  /** Counts from 1. */
  readonly version: number
  /** The description file as it was written. */
  readonly description?: string
  /** When this version was saved. */
  readonly at: string
}

export interface Saved {
  readonly version: number
  /** False where nothing had changed since the last version, so that none was made. */
  readonly isNew: boolean
}

/**
 * Saves a tester. A new version is made only where the tester itself has changed; a new comment in its description file
 * is no change.
 *
 * @param at date and time now, ISO
 */
export const saveTester = (
  book: Book,
  given: { readonly tester: Tester; readonly description?: string },
  at: string,
): Promise<Saved> => write(book, (work) => saveTesterIn(work, given, at))

/** The same inside a transaction. One that was taken out is put back. */
export async function saveTesterIn(
  work: Work,
  given: { readonly tester: Tester; readonly description?: string },
  at: string,
): Promise<Saved> {
  const { db } = work
  requireTime(at)
  const { tester, description } = given
  const parsed = toJson(tester, `tester ${tester.id}`)
  const last = await newest(db, tester.id)
  const isBack = putBack(work, 'tester', tester.id)
  if (last !== undefined && isSame(fromJson(last.parsed), fromJson(parsed)))
    return { version: last.version, isNew: isBack }
  await db
    .insertInto('tester')
    .values({ id: tester.id, name: tester.name })
    .onConflict((conflict) => conflict.column('id').doUpdateSet({ name: tester.name }))
    .execute()
  const version = (last?.version ?? 0) + 1
  await db
    .insertInto('tester_version')
    .values({ tester: tester.id, version, description: description ?? null, parsed, at })
    .execute()
  return { version, isNew: true }
}

/** The newest version of each tester, by id; without those that were taken out. */
export const testers = (book: Book): Promise<TesterVersion[]> =>
  read(book, async ({ db }) => {
    const rows = await versions(db)
      .where((is) =>
        is(
          'version',
          '=',
          is
            .selectFrom('tester_version as other')
            .select((of) => of.fn.max('other.version').as('newest'))
            .whereRef('other.tester', '=', 'tester_version.tester'),
        ),
      )
      .where('tester', 'not in', namesOut(db, 'tester'))
      .orderBy('tester')
      .execute()
    return rows.map(versionOfRow)
  })

/**
 * A tester by id: its newest version, or the one asked for.
 *
 * @throws {FaultError} `not-found`
 */
export const tester = (book: Book, id: string, version?: number): Promise<TesterVersion> =>
  read(book, async ({ db }) => {
    const row = await testerRow(db, id, version)
    return versionOfRow(row)
  })

/** @throws {FaultError} `not-found` */
export async function testerRow(db: Kysely<Tables>, id: string, version?: number) {
  const row = await newest(db, id, version)
  if (row !== undefined) return row
  const known = await db.selectFrom('tester').select('id').execute()
  const name = version === undefined ? id : `${id} version ${version}`
  throw notInBook(
    'tester',
    name,
    known.map((one) => one.id),
  )
}

const versions = (db: Kysely<Tables>) =>
  db.selectFrom('tester_version').select(['id', 'tester', 'version', 'description', 'parsed', 'at'])

const newest = (db: Kysely<Tables>, id: string, version?: number) =>
  versions(db)
    .where('tester', '=', id)
    .$if(version !== undefined, (query) => query.where('version', '=', version as number))
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst()

const versionOfRow = (row: { version: number; description: string | null; parsed: string; at: string }) => {
  const { version, description, at } = row
  return { tester: fromJson<Tester>(row.parsed), ...withoutNulls({ version, description, at }) }
}
