import type { Driver } from './book.ts'

/** Name and text of everything that gives the file its structure: tables, indexes, triggers. */
export type Structure = ReadonlyMap<string, string>

/** Reads the structure of a book. */
export function structureOf(driver: Driver): Structure {
  const rows = driver
    .prepare<[], { name: string; sql: string }>("SELECT name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%'")
    .all()
  return new Map(rows.map(({ name, sql }) => [name, sql]))
}

/** What a structure lacks or has otherwise, in sentences. */
export function differences(found: Structure, wanted: Structure): string[] {
  const lost = [...wanted.keys()].filter((name) => !found.has(name))
  const other = [...wanted].filter(([name, sql]) => found.has(name) && found.get(name) !== sql)
  return [
    ...lost.map((name) => `${name.replaceAll('_', ' ')}: this part of the book's structure is missing.`),
    ...other.map(([name]) => `${name.replaceAll('_', ' ')}: this part of the book's structure has been altered.`),
  ]
}
