/**
 * One step of the book's structure. Once released, its SQL is never edited: a later change is a later migration.
 * A book's `user_version` is the number of the last migration it has been through.
 */
export interface Migration {
  readonly number: number
  /** What it does, for people. */
  readonly name: string
  readonly sql: string
}
