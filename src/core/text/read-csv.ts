import type { Fault } from '#core/fault'
import { parseValue, type Unit } from '#core/quantity'
import { type RawRecord, type Split, splitCsv } from './split-csv.ts'
import { filePlace, longestText, type ReadOptions, textFault, unreadable } from './text-fault.ts'

/** A column of a table: its name with the unit taken off. */
export interface Column {
  /** As in the header, without the unit. */
  readonly name: string
  /** Unit text from the header, `uA` in `shown [uA]`; the whole column is in it where a cell has no unit of its own. */
  readonly unit?: string
  /** Position among the cells of a row, from 0. */
  readonly index: number
}

export interface Row {
  /** Row number in the file; the header is usually row 1. */
  readonly row: number
  readonly cells: readonly string[]
}

/** A table that was read. */
export interface Table {
  readonly file?: string
  readonly delimiter: ',' | ';' | '\t'
  /** How a comma inside a number is to be taken, for `parseValue`. */
  readonly decimal: 'point' | 'comma' | 'either'
  /** What was found about the form, for people: "Columns are separated by semicolons." */
  readonly notes: readonly string[]
  /** Row of the header in the file. */
  readonly headerRow: number
  readonly columns: readonly Column[]
  readonly rows: readonly Row[]
}

export type TableRead =
  | { readonly ok: true; readonly table: Table }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const delimiterWords = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' } as const

/**
 * Reads a table whose columns are separated by commas, semicolons or tabs; the header says which. Units may stand in
 * the header, `shown [uA]` or `ic (mA)`. A cell with a decimal comma must be in quotes where commas separate columns.
 * Blank rows and rows that begin with `# ` are passed over. All faults of form come back together.
 *
 * @example readCsv('part,shown [uA]\nA1,12.5\n', { file: 'lot.csv' })
 * @see RFC 4180
 */
export function readCsv(text: string, options: ReadOptions = {}): TableRead {
  let body = text.startsWith('\ufeff') ? text.slice(1) : text
  const fault = unreadable(body, longestText.csv, options)
  if (fault !== undefined) return { ok: false, faults: [fault] }
  if (json.test(body)) return { ok: false, faults: [textFault(options.file, 'is JSON, not a table', tableMend)] }
  if (body.includes('\r') && !body.includes('\n')) body = body.replaceAll('\r', '\n')
  const declared = /^sep=([,;\t])\r?\n/.exec(body)
  if (declared !== null) body = `\n${body.slice(declared[0].length)}`
  const delimiter = (declared?.[1] as Table['delimiter'] | undefined) ?? findDelimiter(body)
  const split = splitCsv(body, delimiter)
  const header = split.records[0]
  if (header === undefined) {
    return { ok: false, faults: [textFault(options.file, 'has no header row', 'Begin with a row of column names.')] }
  }
  return assemble(split, header, delimiter, options)
}

/** How JSON begins, and no row of column names does. */
const json = /^\s*(?:\{\s*["}]|\[\s*[[{"\]])/

const tableMend = 'Give a CSV: a row of column names, and a row below it for each thing.'

function assemble(split: Split, header: RawRecord, delimiter: Table['delimiter'], options: ReadOptions): TableRead {
  const rows = split.records.slice(1)
  const columns = header.cells.map((cell, index) => columnOf(cell, index))
  const faults = [
    ...headerFaults(columns, header, rows, options),
    ...split.faults.map(
      ({ row, cell, value, problem, mend }): Fault => ({
        code: 'bad-input',
        place: { ...filePlace(options.file), row, field: columns[cell]?.name || `column ${cell + 1}` },
        value,
        problem,
        mend,
      }),
    ),
    ...rows.flatMap((r) => lengthFault(r, columns.length, delimiter, options) ?? []),
  ]
  if (faults.length > 0) return { ok: false, faults }
  const decimal = findDecimal(rows, delimiter)
  const full = rows.map((r): Row => {
    if (r.cells.length === columns.length) return { row: r.row, cells: r.cells }
    return { row: r.row, cells: columns.map((c) => r.cells[c.index] ?? '') }
  })
  const used = columns.filter((c) => c.name !== '')
  const notes = [`Columns are separated by ${delimiterWords[delimiter]}.`, ...decimalNote(decimal, delimiter)]
  const form = { delimiter, decimal, notes, headerRow: header.row }
  return { ok: true, table: { ...filePlace(options.file), ...form, columns: used, rows: full } }
}

/** The sign that stands most often in the first row that is neither blank nor a comment, outside quotes. */
function findDelimiter(text: string): Table['delimiter'] {
  const header = text.split('\n', 200).find((l) => l.trim() !== '' && !/^\s*#(?:[\s#]|$)/.test(l)) ?? ''
  const bare = header.replaceAll(/"[^"]*"/g, '')
  const count = (sign: string): number => bare.split(sign).length - 1
  const [best] = ([',', ';', '\t'] as const).map((sign) => ({ sign, n: count(sign) })).sort((a, b) => b.n - a.n)
  return best!.sign
}

const openings: Readonly<Record<string, string>> = { ']': '[', ')': '(' }

function columnOf(cell: string, index: number): Column {
  const close = cell.at(-1) ?? ''
  const start = cell.lastIndexOf(openings[close] ?? '\n')
  const unit = cell.slice(start + 1, -1).trim()
  if (start < 1 || unit.includes(close)) return { name: cell, index }
  const name = cell.slice(0, start).trimEnd()
  if (unit === '') return { name, index }
  return close === ']' || isUnitText(unit) ? { name, unit, index } : { name: cell, index }
}

const isUnitText = (unit: string): boolean => parseValue(`1 ${unit}`).ok

/** A header as it stands in the file, with its unit: `shown [uA]`. */
export const headerText = ({ name, unit }: Column): string => (unit === undefined ? name : `${name} [${unit}]`)

/** The unit a column's header states, in SI; undefined where it states none. */
export function columnUnit(column: Column): Unit | undefined {
  if (column.unit === undefined) return undefined
  const parsed = parseValue(`1 ${column.unit}`)
  return parsed.ok ? parsed.unit : undefined
}

function headerFaults(
  columns: readonly Column[],
  header: RawRecord,
  rows: readonly RawRecord[],
  options: ReadOptions,
): readonly Fault[] {
  const seen = new Set<string>()
  const at = (c: Column) => ({ ...filePlace(options.file), row: header.row, field: c.name || `column ${c.index + 1}` })
  return columns.flatMap((c): Fault[] => {
    const key = c.name.toLowerCase()
    const bad = (value: string, problem: string, mend: string): Fault[] => [
      { code: 'bad-input', place: at(c), value, problem, mend },
    ]
    if (c.name === '') {
      const below = rows.map((r) => r.cells[c.index] ?? '').find((cell) => cell !== '')
      return below === undefined
        ? []
        : bad(below, 'stands in a column without a name', 'Write a name over it; the first row holds the names.')
    }
    if (c.unit !== undefined && !isUnitText(c.unit))
      return bad(c.unit, 'is not a unit', 'Write one such as [uA] or [V].')
    if (seen.has(key)) return bad(c.name, 'is the name of two columns', 'Keep one of them.')
    seen.add(key)
    return []
  })
}

/** A row with more cells than the header, or a short one in which a decimal comma may have split a number. */
function lengthFault(r: RawRecord, wanted: number, delimiter: string, options: ReadOptions): Fault | undefined {
  const { cells } = r
  const count = cells.length
  if (count === wanted) return undefined
  const refuse = (value: string, problem: string, mend: string): Fault => ({
    code: 'bad-input',
    place: { ...filePlace(options.file), row: r.row },
    value,
    problem,
    mend,
  })
  const split = delimiter === ',' ? splitNumber(r) : undefined
  if (count > wanted && cells.slice(wanted).some((c) => c !== '')) {
    const quote = split === undefined ? 'Put cells that hold a separator in quotes.' : `Write "${split}" in quotes.`
    return refuse(cells[wanted]!, `is one cell too many: the row has ${count} and the header ${wanted}`, quote)
  }
  if (count < wanted && split !== undefined)
    return refuse(
      split,
      'may be one number with a decimal comma or two cells, in a row that is short of cells',
      `Write "${split}" in quotes, or add the empty cells at the end of the row.`,
    )
  return undefined
}

/** Two neighbouring bare cells that could be one number with a decimal comma. */
function splitNumber({ cells, quoted }: RawRecord): string | undefined {
  for (let i = 1; i < cells.length; i++)
    if (/^[+-]?\d+$/.test(cells[i - 1]!) && /^\d/.test(cells[i]!) && quoted?.[i] !== true && quoted?.[i - 1] !== true)
      return `${cells[i - 1]},${cells[i]}`
  return undefined
}

/**
 * Whether commas in numbers are decimal. Where semicolons or tabs separate columns, a number that can only be read with
 * a decimal comma (12,5) settles it for the file, unless numbers with a decimal point stand there too.
 */
function findDecimal(rows: readonly RawRecord[], delimiter: Table['delimiter']): Table['decimal'] {
  if (delimiter === ',') return 'either'
  let hasComma = false
  for (const { cells } of rows)
    for (const cell of cells) {
      if (cell.includes('.') && /^[+-]?\d*\.\d+(?:\D*)$/.test(cell)) return 'either'
      if (!hasComma && cell.includes(',')) hasComma = /^[+-]?(?:\d*,(?:\d{1,2}|\d{4,})|0,\d+)(?![\d,.])/.test(cell)
    }
  return hasComma ? 'comma' : 'either'
}

const decimalNote = (decimal: Table['decimal'], delimiter: string): readonly string[] =>
  decimal === 'comma' && delimiter !== ',' ? ['Commas in numbers are decimal commas.'] : []
