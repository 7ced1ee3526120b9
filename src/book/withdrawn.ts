import type { Kysely } from 'kysely'
import type { Tables } from './tables.ts'
import type { Work } from './transaction.ts'

/** Testers and part types that were taken out. Their versions stay, for the runs that were taken with them. */
export type Withdrawable = 'tester' | 'part type'

export const isWithdrawn = ({ driver }: Work, kind: Withdrawable, name: string): boolean =>
  driver.prepare('SELECT 1 FROM withdrawn WHERE kind = ? AND name = ?').get(kind, name) !== undefined

export const withdraw = ({ driver }: Work, kind: Withdrawable, name: string, at: string): void => {
  driver.prepare('INSERT OR IGNORE INTO withdrawn (kind, name, at) VALUES (?, ?, ?)').run(kind, name, at)
}

/** Puts one back; says whether it had been taken out. */
export const putBack = ({ driver }: Work, kind: Withdrawable, name: string): boolean =>
  driver.prepare('DELETE FROM withdrawn WHERE kind = ? AND name = ?').run(kind, name).changes > 0

/** Names of what was taken out, for a query. */
export const namesOut = (db: Kysely<Tables>, kind: Withdrawable) =>
  db.selectFrom('withdrawn').select('name').where('kind', '=', kind)
