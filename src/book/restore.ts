import { type Fault, FaultError } from '#core/fault'
import type { Driver } from './book.ts'
import { type BookExport, type ExportRow, exportFormat } from './export.ts'
import { applySteps } from './migrate.ts'
import { migrations } from './migrations/index.ts'
import { buildBook } from './open.ts'
import { byteColumns, jsonColumns, type Tables, tableNames } from './tables.ts'
import { codeOf } from './trouble.ts'

/**
 * Makes a book of what `exportJson` wrote, whichever Germane wrote it: the rows go into a book of their version, which
 * is then brought up to date.
 *
 * @param file the new book; there must be none of that name
 * @param text what `exportJson` gave
 * @param from name of the file the text comes from
 * @throws {FaultError} `bad-input` with all that is wrong, `book` about the new file: then there is no new file
 */
export async function importJson(file: string, text: string, from = 'the export'): Promise<void> {
  const whole = wholeOf(text, from)
  const before = migrations.slice(0, whole.version)
  const after = migrations.slice(whole.version)
  await buildBook(file, before, (driver) => {
    const faults = tableNames.flatMap((table) => fillTable(driver, table, whole.tables[table] ?? [], from))
    if (faults.length > 0) throw new FaultError(faults)
    applySteps(driver, file, after)
  })
}

function wholeOf(text: string, from: string): BookExport {
  const data = parsed(text, from)
  const wrong = (field: string, value: unknown, problem: string, mend: string): never => {
    const found = value === undefined ? 'nothing' : String(value)
    throw new FaultError({ code: 'bad-input', place: { file: from, field }, value: found, problem, mend })
  }
  if (data.format !== exportFormat)
    wrong('format', data.format, `is not "${exportFormat}"`, 'Give the file that the export of a book wrote.')
  const { version, tables } = data
  if (!Number.isInteger(version) || (version as number) < 1)
    wrong('version', version, 'is no book version', 'Give the file as the export wrote it.')
  if ((version as number) > migrations.length)
    wrong('version', version, `is newer than ${migrations.length}, which this Germane knows`, 'Update Germane.')
  if (!isRecord(tables))
    return wrong('tables', tables, 'is not a set of tables', 'Give the file as the export wrote it.')
  const faults = Object.entries(tables).flatMap(([name, rows]) => wrongTable(name, rows, from))
  if (faults.length > 0) throw new FaultError(faults)
  return { format: exportFormat, version: version as number, tables: tables as BookExport['tables'] }
}

function parsed(text: string, from: string): Record<string, unknown> {
  const notJson = (problem: string): FaultError =>
    new FaultError({ code: 'file', file: from, problem, mend: 'Give the file that the export of a book wrote.' })
  try {
    const data: unknown = JSON.parse(text)
    if (isRecord(data)) return data
  } catch (error) {
    throw notJson(`is not JSON (${error instanceof Error ? error.message : 'unreadable'})`)
  }
  throw notJson('is not an export of a book')
}

const isRecord = (data: unknown): data is Record<string, unknown> =>
  typeof data === 'object' && data !== null && !Array.isArray(data)

function wrongTable(name: string, rows: unknown, from: string): Fault[] {
  const place = { file: from, field: `tables.${name}` }
  if (!tableNames.includes(name as keyof Tables))
    return [{ code: 'bad-input', place, value: name, problem: 'is not a table of a book', mend: 'Take it out.' }]
  if (Array.isArray(rows) && rows.every(isRecord)) return []
  return [
    { code: 'bad-input', place, value: typeof rows, problem: 'is not a list of rows', mend: 'Write [] for none.' },
  ]
}

function fillTable(driver: Driver, table: keyof Tables, rows: readonly ExportRow[], from: string): Fault[] {
  const info = driver.pragma(`table_info(${table})`) as readonly { name: string; notnull: number }[]
  const columns = info.map((column) => column.name)
  if (columns.length === 0) return unknownThen(table, rows, from)
  const insert = driver.prepare(
    `INSERT INTO ${table} (${columns.map((name) => `"${name}"`).join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`,
  )
  return rows.flatMap((row, i) => {
    const wrong = (value: string, problem: string, mend: string): Fault[] => [
      { code: 'bad-input', place: { file: from, field: `tables.${table}[${i}]` }, value, problem, mend },
    ]
    const unknown = Object.keys(row).filter((name) => !columns.includes(name))
    if (unknown.length > 0)
      return wrong(unknown.join(', '), 'is not a column of this table', 'Give the file as the export wrote it.')
    try {
      insert.run(info.map(({ name, notnull }) => cellOf(table, name, row[name], notnull === 1)))
      return []
    } catch (error) {
      if (!isRefusal(error)) throw error
      return wrong(JSON.stringify(row).slice(0, 80), `is refused by the book: ${error.message}`, 'Mend this row.')
    }
  })
}

/** A book of the version of the export has no such table: then the export has no rows of it. */
function unknownThen(table: string, rows: readonly ExportRow[], from: string): Fault[] {
  if (rows.length === 0) return []
  const place = { file: from, field: `tables.${table}` }
  const problem = 'is not a table of a book of this version'
  return [{ code: 'bad-input', place, value: table, problem, mend: 'Give the file as the export wrote it.' }]
}

/** The row itself is at fault: it breaks a rule of the table, or holds what no column can. */
const isRefusal = (error: unknown): error is Error =>
  error instanceof TypeError || error instanceof RangeError || codeOf(error).startsWith('SQLITE_CONSTRAINT')

/** Null in a column of JSON is the JSON word where the column must hold something, else nothing. */
function cellOf(table: keyof Tables, column: string, cell: unknown, isNeeded: boolean): unknown {
  if (byteColumns[table]?.includes(column) === true && typeof cell === 'string') return Buffer.from(cell, 'base64')
  if (jsonColumns[table]?.includes(column) !== true) return cell ?? null
  return cell === undefined || (cell === null && !isNeeded) ? null : JSON.stringify(cell)
}
