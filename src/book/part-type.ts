import type { PartType } from '#core/device'
import type { Book } from './book.ts'
import { fromJson, isSame, toJson } from './json.ts'
import type { Saved } from './tester.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'
import { namesOut, putBack } from './withdrawn.ts'

/** A part type of the user's own, as the book holds it. */
export interface PartTypeVersion {
  readonly partType: PartType
  /** Counts from 1. */
  readonly version: number
  readonly at: string
}

/**
 * Saves a part type of the user's own; a new version only where it has changed.
 *
 * @param at date and time now, ISO
 */
export const savePartType = (book: Book, partType: PartType, at: string): Promise<Saved> =>
  write(book, (work) => savePartTypeIn(work, partType, at))

/** The same inside a transaction. One that was taken out is put back. */
export async function savePartTypeIn(work: Work, partType: PartType, at: string): Promise<Saved> {
  const { db } = work
  requireTime(at)
  const record = toJson(partType, `part type ${partType.type}`)
  const last = await db
    .selectFrom('part_type')
    .select(['version', 'record'])
    .where('type', '=', partType.type)
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst()
  const isBack = putBack(work, 'part type', partType.type)
  if (last !== undefined && isSame(fromJson(last.record), fromJson(record)))
    return { version: last.version, isNew: isBack }
  const version = (last?.version ?? 0) + 1
  await db.insertInto('part_type').values({ type: partType.type, version, record, at }).execute()
  return { version, isNew: true }
}

/** The newest version of each of the user's own part types, by type number; without those that were taken out. */
export const partTypes = (book: Book): Promise<PartTypeVersion[]> =>
  read(book, async ({ db }) => {
    const rows = await db
      .selectFrom('part_type')
      .select(['record', 'version', 'at'])
      .where((is) =>
        is(
          'version',
          '=',
          is
            .selectFrom('part_type as other')
            .select((of) => of.fn.max('other.version').as('newest'))
            .whereRef('other.type', '=', 'part_type.type'),
        ),
      )
      .where('type', 'not in', namesOut(db, 'part type'))
      .orderBy('type')
      .execute()
    return rows.map(({ record, version, at }) => ({ partType: fromJson<PartType>(record), version, at }))
  })
