import type { Kysely } from 'kysely'
import { FaultError } from '#core/fault'
import { tagProblem } from '#core/tester'
import type { Book } from './book.ts'
import { withoutNulls } from './json.ts'
import { lotNumber } from './lot.ts'
import { notInBook } from './missing.ts'
import type { Tables } from './tables.ts'
import { requireTime } from './time.ts'
import { read, write } from './transaction.ts'

export const partStatuses = ['kept', 'good', 'doubtful', 'bad', 'used', 'given away', 'scrapped'] as const
export type PartStatus = (typeof partStatuses)[number]

/** One specimen. */
export interface Part {
  readonly tag: string
  readonly type?: string
  readonly lot?: string
  /** Drawer, bag, board. */
  readonly place?: string
  readonly note?: string
  readonly status: PartStatus
  /** Where it is used now, in words. */
  readonly usedIn?: string
  /** When it came into the book. */
  readonly at: string
}

/** What can be said of a part when it is added. */
export type NewPart = Omit<Part, 'status' | 'at'> & { readonly status?: PartStatus }

export interface PartFilter {
  readonly lot?: string
  readonly type?: string
  readonly status?: PartStatus
  /** Found in tag, type, lot, place, use or note, capitals or not. */
  readonly search?: string
}

/**
 * Adds a part; its lot is made where it is new.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `bad-input` where the tag is empty or there already, or there is no such status
 */
export const addPart = (book: Book, given: NewPart, at: string): Promise<Part> =>
  write(book, async ({ db }) => {
    requireTime(at)
    const { tag, type, lot, place, note, status, usedIn } = given
    const bad = tagProblem(tag)
    if (bad !== undefined) throw badField('tag', tag, bad.problem, bad.mend)
    if (status !== undefined) requireStatus(status)
    const there = await db.selectFrom('part').select('id').where('tag', '=', tag).executeTakeFirst()
    if (there !== undefined) throw badField('tag', tag, 'is in the book already', 'Give this part another tag.')
    const lotId = lot === undefined ? null : await lotNumber(db, lot, at)
    const row = { tag, type: type ?? null, place: place ?? null, note: note ?? null, status: status ?? 'kept', at }
    await db
      .insertInto('part')
      .values({ ...row, lot: lotId, used_in: usedIn ?? null })
      .execute()
    return partOfRow({ ...row, lot: lot ?? null, usedIn: usedIn ?? null })
  })

/**
 * A part by its tag.
 *
 * @throws {FaultError} `not-found`
 */
export const part = (book: Book, tag: string): Promise<Part> =>
  read(book, async ({ db }) => {
    const row = await partsWithLot(db).where('part.tag', '=', tag).executeTakeFirst()
    if (row === undefined) throw await noPart(db, tag)
    return partOfRow(row)
  })

/** Parts in the order in which they came into the book. */
export const parts = (book: Book, filter: PartFilter = {}): Promise<Part[]> =>
  read(book, async ({ db }) => {
    let query = partsWithLot(db).orderBy('part.id')
    if (filter.lot !== undefined) query = query.where('lot.name', '=', filter.lot)
    if (filter.type !== undefined) query = query.where('part.type', '=', filter.type)
    if (filter.status !== undefined) query = query.where('part.status', '=', filter.status)
    const rows = (await query.execute()).map(partOfRow)
    return filter.search === undefined ? rows : rows.filter((one) => says(one, filter.search as string))
  })

/** @throws {FaultError} `not-found` */
export async function partNumber(db: Kysely<Tables>, tag: string): Promise<number> {
  const row = await db.selectFrom('part').select('id').where('tag', '=', tag).executeTakeFirst()
  if (row === undefined) throw await noPart(db, tag)
  return row.id
}

/** The fault for a tag that is not there, with near ones. */
export async function noPart(db: Kysely<Tables>, tag: string): Promise<FaultError> {
  const all = db.selectFrom('part').select('tag').limit(nearAmong)
  const first = await all.orderBy('id').execute()
  const alike = tag === '' ? [] : await all.where('tag', '>=', tag.slice(0, -1)).orderBy('tag').execute()
  return notInBook('part', tag, [...new Set([...alike, ...first].map((one) => one.tag))])
}

/** Near tags are looked for among the first parts, and among those that come where it would stand. */
const nearAmong = 500

const badField = (field: string, value: string, problem: string, mend: string): FaultError =>
  new FaultError({ code: 'bad-input', place: { field }, value, problem, mend })

/** @throws {FaultError} `bad-input` for a status there is not */
export function requireStatus(status: string | null): void {
  if (partStatuses.some((one) => one === status)) return
  throw badField('status', status ?? '', 'is no status of a part', `Write one of: ${partStatuses.join(', ')}.`)
}

/** Parts with the name of their lot. */
export const partsWithLot = (db: Kysely<Tables>) =>
  db
    .selectFrom('part')
    .leftJoin('lot', 'lot.id', 'part.lot')
    .select(['part.tag', 'part.type', 'lot.name as lot', 'part.place', 'part.note', 'part.status', 'part.at'])
    .select('part.used_in as usedIn')

interface PartWithLot {
  tag: string
  type: string | null
  lot: string | null
  place: string | null
  note: string | null
  status: string
  at: string
  usedIn: string | null
}

export function partOfRow(row: PartWithLot): Part {
  const { tag, type, lot, place, note, status, usedIn, at } = row
  return withoutNulls({ tag, type, lot, place, note, status: status as PartStatus, usedIn, at })
}

function says(one: Part, search: string): boolean {
  const wanted = search.toLowerCase()
  return [one.tag, one.type, one.lot, one.place, one.usedIn, one.note].some((text) =>
    text?.toLowerCase().includes(wanted),
  )
}
