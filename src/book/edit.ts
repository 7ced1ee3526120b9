import type { Book } from './book.ts'
import { withoutNulls } from './json.ts'
import { lotNumber } from './lot.ts'
import { noPart, type Part, type PartStatus, partNumber, partOfRow, requireStatus } from './part.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** What to change; null takes a value away. */
export interface PartChanges {
  readonly type?: string | null
  readonly lot?: string | null
  readonly place?: string | null
  readonly note?: string | null
  readonly status?: PartStatus
  readonly usedIn?: string | null
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
  write(book, async (work) => (await editPartIn(work, tag, changes, at)).part)

/** What an edit changed of a part: each field as it was and as it is, null where it had no value. */
export type Changed = Readonly<Record<string, readonly [was: string | null, is: string | null]>>

/** The same inside a transaction; by the driver itself, since a selection may have thousands of parts. */
export async function editPartIn(
  { db, driver }: Work,
  tag: string,
  changes: PartChanges,
  at: string,
): Promise<{ readonly part: Part; readonly changed: Changed }> {
  requireTime(at)
  if (changes.status !== undefined) requireStatus(changes.status)
  const row = driver.prepare<[string], EditedRow>(selectEdited).get(tag)
  if (row === undefined) throw await noPart(db, tag)
  const { id, ...before } = row
  const after = { ...before, ...defined(changes) }
  const changed = partFields.filter((field) => before[field] !== after[field])
  if (changed.length === 0) return { part: partOfRow(before), changed: {} }
  const lot = after.lot === null ? null : await lotNumber(db, after.lot, at)
  const { type, place, note, status, usedIn } = after
  driver
    .prepare('UPDATE part SET type = ?, lot = ?, place = ?, note = ?, status = ?, used_in = ? WHERE id = ?')
    .run(type, lot, place, note, status, usedIn, id)
  const keep = driver.prepare('INSERT INTO edit (part, field, old, new, at) VALUES (?, ?, ?, ?, ?)')
  for (const field of changed) keep.run(id, field, before[field], after[field], at)
  const pairs = changed.map((field) => [field, [before[field], after[field]] as const])
  return { part: partOfRow(after), changed: Object.fromEntries(pairs) }
}

type EditedRow = Parameters<typeof partOfRow>[0] & { id: number }

const selectEdited = `SELECT part.id, part.tag, part.type, lot.name AS lot, part.place, part.note, part.status, part.at,
  part.used_in AS usedIn FROM part LEFT JOIN lot ON lot.id = part.lot WHERE part.tag = ?`

/** What can be changed of a part. */
export const partFields = ['type', 'lot', 'place', 'note', 'status', 'usedIn'] as const

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
