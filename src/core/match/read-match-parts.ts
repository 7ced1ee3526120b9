import type { Fault } from '#core/fault'
import { leaf, type Quantity, term } from '#core/quantity'
import { nearNames, type Row, readCsv, type Table } from '#core/text'
import type { MatchPart } from './request.ts'
import { quantityTaken, takeLog, type WantedValue, wantedValue } from './wanted-value.ts'

export type PartsRead =
  | { readonly ok: true; readonly parts: readonly MatchPart[]; readonly notes: readonly string[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

interface Wanted {
  readonly file: string
  /** Columns of numbers, and of labels, that are needed. */
  readonly numbers: readonly string[]
  readonly labels?: readonly string[]
}

/** A column of numbers, and that of their standard uncertainties where there is one. */
interface NumberColumn {
  readonly name: string
  readonly wanted: WantedValue
  readonly at: number
  readonly doubtAt: number
}

/**
 * Reads parts from a table: a column `tag` (or `part`, else the first), and the columns that are needed; `ln(hfe)` needs
 * the column hfe. A column `u(hfe)` holds the standard uncertainties of hfe. An empty cell is a value that is not known.
 */
export function readMatchParts(text: string, { file, numbers, labels = [] }: Wanted): PartsRead {
  const read = readCsv(text, { file })
  if (!read.ok) return read
  const { table } = read
  const names = table.columns.map((c) => c.name)
  const columns = numbers.map((name) => columnFor(names, name))
  const missing = [
    ...columns.filter((c) => c.at < 0).map((c) => c.wanted.of),
    ...labels.filter((l) => !names.includes(l)),
  ]
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
    const quantities: Record<string, Quantity> = {}
    for (const column of columns) {
      const number = (at: number): number | undefined => numberAt(table, row, at, faults)
      const value = number(column.at)
      if (value === undefined) continue
      const taken = takeLog(value, column.wanted.log)
      if (taken !== undefined) values[column.name] = taken
      const u = column.doubtAt < 0 ? undefined : number(column.doubtAt)
      const q = u === undefined ? undefined : quantityTaken(stated(tag, column, value, u), column.wanted.log)
      if (q !== undefined) quantities[column.name] = q
    }
    const own = Object.fromEntries(labels.map((l) => [l, row.cells[names.indexOf(l)] ?? '']))
    return { tag, values, labels: own, ...(Object.keys(quantities).length === 0 ? {} : { quantities }) }
  })
  return faults.length > 0 ? { ok: false, faults } : { ok: true, parts, notes: table.notes }
}

/** A column of just this name comes before the logarithm of another. */
function columnFor(names: readonly string[], name: string): NumberColumn {
  const wanted: WantedValue = names.includes(name) ? { of: name } : wantedValue(name)
  return { name, wanted, at: names.indexOf(wanted.of), doubtAt: names.indexOf(`u(${wanted.of})`) }
}

/** Uncertainties of a table are each part's own: it does not say what parts share. */
const stated = (tag: string, { wanted }: NumberColumn, value: number, u: number): Quantity =>
  leaf(value, '1', { kind: 'stated', what: wanted.of }, [term(`table/${tag}/${wanted.of}`, { label: wanted.of, u })])

/** A plain number; nothing for an empty cell or, with a fault, for anything else. */
function numberAt(table: Table, row: Row, at: number, faults: Fault[]): number | undefined {
  const cell = (row.cells[at] ?? '').trim()
  if (cell === '') return undefined
  const text = table.decimal === 'point' ? cell : cell.replace(',', '.')
  if (/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) && Number.isFinite(Number(text))) return Number(text)
  faults.push(badNumber(table, row, table.columns[at]!.name, cell))
  return undefined
}

const placeIn = (table: Table, field: string, row?: Row) => ({
  ...(table.file === undefined ? {} : { file: table.file }),
  row: row?.row ?? table.headerRow,
  field,
})

function noColumn(table: Table, name: string, names: readonly string[]): Fault {
  const near = nearNames(name, names)
  const mend = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `The columns are ${names.join(', ')}.`
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
