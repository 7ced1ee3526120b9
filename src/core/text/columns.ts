import type { Fault, Place } from '#core/fault'
import { nearNames } from './near.ts'
import type { Column, Table } from './read-csv.ts'
import { filePlace } from './text-fault.ts'

/** A column that a kind of file may have. */
export interface KnownColumn {
  readonly name: string
  /** Other headers that are understood. */
  readonly also?: readonly string[]
  readonly required?: boolean
  readonly description: string
}

export type ColumnsFound<N extends string> =
  | { readonly ok: true; readonly at: Readonly<Partial<Record<N, Column>>> }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const plain = (text: string): string => text.toLowerCase().replaceAll(/[\s_-]+/g, '')

/**
 * Finds the known columns of a table, whatever their order. Case, blanks, hyphens and underscores do not count. Unknown
 * columns and missing ones are faults, with near names.
 */
export function findColumns<const K extends readonly KnownColumn[]>(
  table: Table,
  known: K,
): ColumnsFound<K[number]['name']> {
  const names = new Map<string, string>()
  for (const k of known) for (const n of [k.name, ...(k.also ?? [])]) names.set(plain(n), k.name)
  const at: Partial<Record<string, Column>> = {}
  const faults: Fault[] = []
  const place = (field?: string) => ({
    ...filePlace(table.file),
    row: table.headerRow,
    ...(field === undefined ? {} : { field }),
  })
  for (const column of table.columns) {
    const name = names.get(plain(column.name))
    if (name === undefined) faults.push(unknownColumn(column, known, place(column.name)))
    else if (at[name] !== undefined) {
      const problem = `is the same column as "${at[name].name}"`
      faults.push({
        code: 'bad-input',
        place: place(column.name),
        value: column.name,
        problem,
        mend: 'Keep one of them.',
      })
    } else at[name] = column
  }
  for (const k of known)
    if (k.required === true && at[k.name] === undefined)
      faults.push({
        code: 'bad-input',
        place: place(),
        value: k.name,
        problem: 'is a column that is missing',
        mend: `Add it: ${k.description}`,
      })
  return faults.length > 0 ? { ok: false, faults } : { ok: true, at: at as Partial<Record<K[number]['name'], Column>> }
}

function unknownColumn(column: Column, known: readonly KnownColumn[], place: Place): Fault {
  const near = nearNames(
    column.name,
    known.flatMap((k) => [k.name, ...(k.also ?? [])]),
  )
  const all = `Columns known here: ${known.map((k) => k.name).join(', ')}.`
  const mend = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : all
  return { code: 'bad-input', place, value: column.name, problem: 'is not a column that is known here', mend }
}

/** Writes a table with commas, quotes where they are needed, and a line feed after each row. */
export function writeCsv(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const cell = (text: string): string =>
    /[",\n\r;\t]|^\s|\s$|^#/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  return [header, ...rows].map((cells) => `${cells.map(cell).join(',')}\n`).join('')
}
