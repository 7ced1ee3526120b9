import type { Book } from './book.ts'
import { withoutNulls } from './json.ts'
import { lotNumber } from './lot.ts'
import { noPart, type Part, type PartStatus, partNumber, partOfRow, partsWithLot, requireStatus } from './part.ts'
import { requireTime } from './time.ts'
import { read, write } from './transaction.ts'

/** What to change; null takes a value away. */
export interface PartChanges {
  readonly type?: string | null
  readonly lot?: string | null
  readonly place?: string | null
  readonly note?: string | null
  readonly status?: PartStatus
}

/** One change of one field of a part, kept for ever. */
export interface Edit {
  readonly field: string
  readonly old?: string
  readonly new?: string
  readonly at: string
}

/**
 * Changes what is said of a part and keeps what was said before.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found`; `bad-input` for a status there is not
 */
export const editPart = (book: Book, tag: string, changes: PartChanges, at: string): Promise<Part> =>
  write(book, async ({ db }) => {
    requireTime(at)
    if (changes.status !== undefined) requireStatus(changes.status)
    const row = await partsWithLot(db).select('part.id').where('part.tag', '=', tag).executeTakeFirst()
    if (row === undefined) throw await noPart(db, tag)
    const { id, ...before } = row
    const after = { ...before, ...defined(changes) }
    const lot = after.lot === null ? null : await lotNumber(db, after.lot, at)
    const { type, place, note, status } = after
    await db.updateTable('part').set({ type, lot, place, note, status }).where('id', '=', id).execute()
    for (const field of ['type', 'lot', 'place', 'note', 'status'] as const)
      if (before[field] !== after[field])
        await db.insertInto('edit').values({ part: id, field, old: before[field], new: after[field], at }).execute()
    return partOfRow(after)
  })

/** The changes of a part, oldest first. */
export const edits = (book: Book, tag: string): Promise<Edit[]> =>
  read(book, async ({ db }) => {
    const id = await partNumber(db, tag)
    const rows = await db.selectFrom('edit').selectAll().where('part', '=', id).orderBy('id').execute()
    return rows.map(({ field, old, new: to, at }) => withoutNulls({ field, old, new: to, at }))
  })

/** The keys that are really given: one that is `undefined` changes nothing. */
const defined = (changes: PartChanges): PartChanges =>
  Object.fromEntries(Object.entries(changes).filter(([, value]) => value !== undefined))
