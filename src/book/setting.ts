import type { Book } from './book.ts'
import { fromJson, toJson } from './json.ts'
import { read, type Work, write } from './transaction.ts'

/** A setting by name, or undefined where it was never saved. `made` is when the book was made. */
export const setting = (book: Book, name: string): Promise<unknown> => read(book, (work) => settingIn(work, name))

/** The same inside a transaction. */
export async function settingIn({ db }: Work, name: string): Promise<unknown> {
  const row = await db.selectFrom('setting').select('value').where('name', '=', name).executeTakeFirst()
  return row === undefined ? undefined : fromJson<unknown>(row.value)
}

/** Keeps a setting: any data that JSON can hold. */
export const saveSetting = (book: Book, name: string, value: unknown): Promise<void> =>
  write(book, (work) => saveSettingIn(work, name, value))

/** The same inside a transaction. */
export async function saveSettingIn({ db }: Work, name: string, value: unknown): Promise<void> {
  const row = { name, value: toJson(value, name) }
  await db
    .insertInto('setting')
    .values(row)
    .onConflict((conflict) => conflict.column('name').doUpdateSet({ value: row.value }))
    .execute()
}
