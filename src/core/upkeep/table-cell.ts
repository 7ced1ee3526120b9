import type { Fault } from '#core/fault'
import { parseValue, type Unit } from '#core/quantity'
import { type Column, columnUnit, type Row, type Table } from '#core/text'

/** What is wrong with one cell of a table. */
export const cellFault = (table: Table, row: Row, column: Column, problem: string, mend: string): Fault => ({
  code: 'bad-input',
  place: { ...(table.file === undefined ? {} : { file: table.file }), row: row.row, field: column.name },
  value: row.cells[column.index] ?? '',
  problem,
  mend,
})

/** What is wrong with a table as a whole, or with its header. */
export const tableFault = (table: Table, value: string, problem: string, mend: string): Fault => ({
  code: 'bad-input',
  place: { ...(table.file === undefined ? {} : { file: table.file }), row: table.headerRow },
  value,
  problem,
  mend,
})

/** The text of a cell without blanks around it; empty where the row has none. */
export const cellText = (row: Row, column: Column | undefined): string =>
  column === undefined ? '' : (row.cells[column.index] ?? '').trim()

/**
 * The number of a cell in SI units. The unit stands in the cell or over the column; a column without one holds plain
 * numbers. What cannot be read is added to `faults`.
 */
export function cellNumber(
  table: Table,
  row: Row,
  column: Column,
  unit: Unit,
  faults: Fault[],
): { readonly value: number; readonly u?: number } | undefined {
  const cell = cellText(row, column)
  const isBare = /^[+\-\d.,\seE]+$/.test(cell)
  const text = isBare && column.unit !== undefined ? `${cell} ${column.unit}` : cell
  const parsed = parseValue(text, { unit, decimal: table.decimal })
  if (parsed.ok) return parsed
  faults.push(cellFault(table, row, column, parsed.problem, parsed.mend))
  return undefined
}

/** The unit of a column: of its header, else of its first filled cell, else none. */
export function unitOfColumn(table: Table, column: Column): Unit {
  const stated = columnUnit(column)
  if (stated !== undefined) return stated
  const row = table.rows.find((r) => cellText(r, column) !== '')
  const parsed = row === undefined ? undefined : parseValue(cellText(row, column), { decimal: table.decimal })
  return parsed?.ok === true ? parsed.unit : '1'
}
