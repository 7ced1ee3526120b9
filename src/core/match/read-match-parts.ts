import type { Fault } from '#core/fault'
import { nearNames, type Row, readCsv, type Table } from '#core/text'
import type { MatchPart } from './request.ts'

export type PartsRead =
  | { readonly ok: true; readonly parts: readonly MatchPart[]; readonly notes: readonly string[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

interface Wanted {
  readonly file: string
  /** Columns of numbers, and of labels, that are needed. */
  readonly numbers: readonly string[]
  readonly labels?: readonly string[]
}

/**
 * Reads parts from a table: a column `tag` (or `part`, else the first), and the columns that are needed. An empty cell is
 * a value that is not known.
 */
export function readMatchParts(text: string, { file, numbers, labels = [] }: Wanted): PartsRead {
  const read = readCsv(text, { file })
  if (!read.ok) return read
  const { table } = read
  const names = table.columns.map((c) => c.name)
  const missing = [...numbers, ...labels].filter((name) => !names.includes(name))
  if (missing.length > 0) return { ok: false, faults: missing.map((name) => noColumn(table, name, names)) }
  const tagColumn = Math.max(
    0,
    names.findIndex((name) => /^(tag|part)$/i.test(name)),
  )
  const faults: Fault[] = []
  const seen = new Set<string>()
  const parts = table.rows.map((row): MatchPart => {
    const tag = (row.cells[tagColumn] ?? '').trim()
    if (tag === '' || seen.has(tag)) faults.push(badTag(table, row, names[tagColumn]!, tag))
    seen.add(tag)
    const values: Record<string, number> = {}
    for (const name of numbers) {
      const cell = (row.cells[names.indexOf(name)] ?? '').trim()
      const value = numberIn(cell, table.decimal)
      if (cell !== '' && !Number.isFinite(value)) faults.push(badNumber(table, row, name, cell))
      else if (cell !== '') values[name] = value
    }
    return { tag, values, labels: Object.fromEntries(labels.map((l) => [l, row.cells[names.indexOf(l)] ?? ''])) }
  })
  return faults.length > 0 ? { ok: false, faults } : { ok: true, parts, notes: table.notes }
}

/** A plain number; NaN for anything else. */
function numberIn(cell: string, decimal: Table['decimal']): number {
  const text = decimal === 'point' ? cell : cell.replace(',', '.')
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN
}

const placeIn = (table: Table, field: string, row?: Row) => ({
  ...(table.file === undefined ? {} : { file: table.file }),
  row: row?.row ?? table.headerRow,
  field,
})

function noColumn(table: Table, name: string, names: readonly string[]): Fault {
  const near = nearNames(name, names)
  const mend = near.length > 0 ? `Perhaps ${near.join(' or ')} is meant.` : `The columns are ${names.join(', ')}.`
  return { code: 'bad-input', place: placeIn(table, name), value: name, problem: 'is not a column of the table', mend }
}

const badTag = (table: Table, row: Row, field: string, tag: string): Fault => ({
  code: 'bad-input',
  place: placeIn(table, field, row),
  value: tag,
  problem: tag === '' ? 'is empty' : 'stands there twice',
  mend: 'Give each part a tag of its own.',
})

const badNumber = (table: Table, row: Row, field: string, cell: string): Fault => ({
  code: 'bad-input',
  place: placeIn(table, field, row),
  value: cell,
  problem: 'is not a plain number',
  mend: 'Write it like 4.21; the unit belongs in the name of the column.',
})
