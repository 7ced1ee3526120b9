import type { Driver } from './book.ts'
import { isSame } from './json.ts'
import type { Work } from './transaction.ts'

/** Tables a job lies in, in an order in which every row comes after the rows it points to. */
const jobTables = ['job', 'position', 'reserved'] as const
type JobTable = (typeof jobTables)[number]

type Row = Readonly<Record<string, string | number | null>>

/** A row of a job before and after an edit; null where there is none. */
export interface RowChange {
  readonly table: JobTable
  readonly key: number
  readonly before: Row | null
  readonly after: Row | null
}

const keyOf: Readonly<Record<JobTable, string>> = { job: 'id', position: 'id', reserved: 'part' }
const jobOf: Readonly<Record<JobTable, string>> = { job: 'id', position: 'job', reserved: 'job' }

type Rows = ReadonlyMap<string, { readonly table: JobTable; readonly key: number; readonly row: Row }>

/** All rows of a job as they now are. */
export function rowsOfJob({ driver }: Work, job: number): Rows {
  const all = jobTables.flatMap((table) =>
    driver
      .prepare<[number], Row>(`SELECT * FROM ${table} WHERE ${jobOf[table]} = ?`)
      .all(job)
      .map((row) => ({ table, key: row[keyOf[table]] as number, row })),
  )
  return new Map(all.map((one) => [`${one.table} ${one.key}`, one]))
}

/** The rows that differ. */
export function changesBetween(before: Rows, after: Rows): RowChange[] {
  const names = [...new Set([...before.keys(), ...after.keys()])]
  return names.flatMap((name): readonly RowChange[] => {
    const [was, is] = [before.get(name), after.get(name)]
    const { table, key } = (was ?? is)!
    if (isSame(was?.row, is?.row)) return []
    return [{ table, key, before: was?.row ?? null, after: is?.row ?? null }]
  })
}

/** The changes that undo these. */
export const reversed = (changes: readonly RowChange[]): RowChange[] =>
  changes.map(({ before, after, ...row }) => ({ ...row, before: after, after: before }))

/** Whether the rows are still as the changes left them. */
export const isStill = ({ driver }: Work, changes: readonly RowChange[]): boolean =>
  changes.every(({ table, key, after }) => isSame(rowNow(driver, table, key), after))

const rowNow = (driver: Driver, table: JobTable, key: number): Row | null =>
  driver.prepare<[number], Row>(`SELECT * FROM ${table} WHERE ${keyOf[table]} = ?`).get(key) ?? null

/** Makes the rows what they are after the changes: what goes first, then what comes. */
export function makeChanges({ driver }: Work, changes: readonly RowChange[]): void {
  for (const table of [...jobTables].reverse())
    for (const { key } of changes.filter((one) => one.table === table && one.after === null))
      driver.prepare(`DELETE FROM ${table} WHERE ${keyOf[table]} = ?`).run(key)
  for (const table of jobTables)
    for (const { key, before, after } of changes.filter((one) => one.table === table))
      if (after !== null) putRow(driver, { table, key, row: after, isThere: before !== null })
}

interface PutRow {
  readonly table: JobTable
  readonly key: number
  readonly row: Row
  readonly isThere: boolean
}

function putRow(driver: Driver, { table, key, row, isThere }: PutRow): void {
  const columns = Object.keys(row)
  const sql = isThere
    ? `UPDATE ${table} SET ${columns.map((name) => `"${name}" = ?`).join(', ')} WHERE ${keyOf[table]} = ?`
    : `INSERT INTO ${table} (${columns.map((name) => `"${name}"`).join(', ')}) VALUES (${columns.map(() => '?').join(', ')})`
  driver.prepare(sql).run(...Object.values(row), ...(isThere ? [key] : []))
}
