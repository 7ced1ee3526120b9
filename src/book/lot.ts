import type { Kysely } from 'kysely'
import type { Book } from './book.ts'
import type { Tables } from './tables.ts'
import { read } from './transaction.ts'

export interface Lot {
  readonly name: string
  readonly parts: number
  readonly at: string
}

/** Lots with the number of their parts, by name. */
export const lots = (book: Book): Promise<Lot[]> =>
  read(book, async ({ db }) => {
    const rows = await db
      .selectFrom('lot')
      .leftJoin('part', 'part.lot', 'lot.id')
      .select((of) => ['lot.name', 'lot.at', of.fn.count<number | string>('part.id').as('parts')])
      .groupBy('lot.id')
      .orderBy('lot.name')
      .execute()
    return rows.map(({ name, parts, at }) => ({ name, parts: Number(parts), at }))
  })

/** The number of a lot; a new one is made. */
export async function lotNumber(db: Kysely<Tables>, name: string, at: string): Promise<number> {
  const there = await db.selectFrom('lot').select('id').where('name', '=', name).executeTakeFirst()
  if (there !== undefined) return there.id
  const made = await db.insertInto('lot').values({ name, at }).returning('id').executeTakeFirstOrThrow()
  return made.id
}
