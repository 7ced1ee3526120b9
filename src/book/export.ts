import type { Reading } from '#core/tester'
import type { Book } from './book.ts'
import { versionOf } from './connect.ts'
import { type ReadingFilter, readingsIn } from './reading.ts'
import { byteColumns, jsonColumns, type Tables, tableNames } from './tables.ts'
import { read } from './transaction.ts'

export const exportFormat = 'germane/book/1'

/** A value of a row; where the column holds JSON, the data itself; bytes as base64. */
export type Cell = unknown
export type ExportRow = Readonly<Record<string, Cell>>

/** A whole book as data. */
export interface BookExport {
  readonly format: typeof exportFormat
  /** Book version it was written from: the number of its last migration. */
  readonly version: number
  readonly tables: Readonly<Record<string, readonly ExportRow[]>>
}

/** A whole book as JSON text, one row to a line; the same content gives the same text. */
export const exportJson = (book: Book): Promise<string> =>
  read(book, async ({ driver }) => {
    const tables = tableNames.map((table) => {
      const rows = driver.prepare<[], Record<string, Cell>>(`SELECT * FROM ${table} ORDER BY ${keys[table] ?? 'id'}`)
      const lines = rows.all().map((row) => JSON.stringify(exportRow(table, row)))
      return `"${table}": [${lines.length === 0 ? '' : `\n${lines.join(',\n')}\n`}]`
    })
    const head = `"format": "${exportFormat}",\n"version": ${versionOf(driver)}`
    return `{\n${head},\n"tables": {\n${tables.join(',\n')}\n}\n}\n`
  })

/** Order of the tables whose rows have no number. */
const keys: Readonly<Partial<Record<keyof Tables, string>>> = {
  setting: 'name',
  result: 'run, part',
  newest: 'part',
  reserved: 'part',
  withdrawn: 'kind, name',
  taken: 'client',
}

function exportRow(table: keyof Tables, row: Record<string, Cell>): ExportRow {
  for (const column of jsonColumns[table] ?? []) {
    const text = row[column]
    if (typeof text === 'string') row[column] = JSON.parse(text)
  }
  for (const column of byteColumns[table] ?? []) {
    const bytes = row[column]
    if (bytes instanceof Uint8Array) row[column] = Buffer.from(bytes).toString('base64')
  }
  return row
}

/** The readings that count, as plain data: what `readingsCsv` of `#core/tester` writes and `readReadings` reads. */
export const exportReadings = (book: Book, filter: Omit<ReadingFilter, 'current'> = {}): Promise<Reading[]> =>
  read(book, async (work) => (await readingsIn(work, { ...filter, current: true })).map((one) => one.reading))
