import type { PartType } from '#core/device'
import type { Book } from './book.ts'
import { fromJson, isSame, toJson } from './json.ts'
import type { Saved } from './tester.ts'
import { requireTime } from './time.ts'
import { read, write } from './transaction.ts'

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
  write(book, async ({ db }) => {
    requireTime(at)
    const record = toJson(partType, `part type ${partType.type}`)
    const last = await db
      .selectFrom('part_type')
      .select(['version', 'record'])
      .where('type', '=', partType.type)
      .orderBy('version', 'desc')
      .limit(1)
      .executeTakeFirst()
    if (last !== undefined && isSame(fromJson(last.record), fromJson(record)))
      return { version: last.version, isNew: false }
    const version = (last?.version ?? 0) + 1
    await db.insertInto('part_type').values({ type: partType.type, version, record, at }).execute()
    return { version, isNew: true }
  })

/** The newest version of each of the user's own part types, by type number. */
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
      .orderBy('type')
      .execute()
    return rows.map(({ record, version, at }) => ({ partType: fromJson<PartType>(record), version, at }))
  })
