import { z } from 'zod'
import type { Fault } from '#core/fault'
import { parseValue } from '#core/quantity'
import {
  checkWith,
  documentFault,
  findColumns,
  placeOf,
  readCsv,
  readYaml,
  type Table,
  type TextDocument,
  writeCsv,
} from '#core/text'
import { readShown } from './parse-shown.ts'
import type { Reading } from './reading.ts'
import {
  ambientOf,
  ambientProblem,
  type Entry,
  type FileAmbient,
  type ReadingField,
  readEntry,
  readingFields,
} from './reading-entry.ts'
import { readingKinds, type Tester } from './tester.ts'

export type ReadingsRead =
  | {
      readonly ok: true
      readonly readings: readonly Reading[]
      /** How the file was understood: separators, decimal commas. */
      readonly notes: readonly string[]
    }
  | { readonly ok: false; readonly faults: readonly Fault[] }

export interface ReadingsOptions {
  /** Name shown in faults. */
  readonly file?: string
  /** Readings are held against it: ranges, scales, units, needle within the scale. */
  readonly tester?: Tester
}

/**
 * Reads a file of readings: a table with one row per reading, or the same as JSON (or YAML). Either every reading is
 * good, or all faults come back together, each with row or line, column, value and mend, and no reading at all.
 *
 * @example readReadings('part,reads,shown,range\nA1,I_CEO,7.3 div,100 uA\n', { file: 'lot.csv', tester })
 */
export function readReadings(text: string, options: ReadingsOptions = {}): ReadingsRead {
  const isDocument =
    /^\ufeff?\s*[[{]/.test(text) || /^\ufeff?(?:[^\S\n]*(?:#[^\n]*)?\n)*[^\S\n]*(?:format|readings)[^\S\n]*:/.test(text)
  return isDocument ? readReadingsDocument(text, options) : readReadingsTable(text, options)
}

const fileOption = (options: ReadingsOptions): { readonly file?: string } =>
  options.file === undefined ? {} : { file: options.file }

/** Reads each entry; all faults together. */
function gather(
  entries: readonly Entry[],
  common: FileAmbient,
  notes: readonly string[],
  tester: Tester | undefined,
): ReadingsRead {
  const readings: Reading[] = []
  const faults: Fault[] = []
  for (const entry of entries) {
    const read = readEntry(entry, common, tester)
    if ('reads' in read) readings.push(read)
    else faults.push(...read)
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, readings, notes }
}

function readReadingsTable(text: string, options: ReadingsOptions): ReadingsRead {
  const read = readCsv(text, fileOption(options))
  if (!read.ok) return read
  const { table } = read
  const found = findColumns(table, readingFields)
  if (!found.ok) return found
  if (table.rows.length === 0) {
    const place = { ...fileOption(options), row: table.headerRow }
    const mend = 'Write one row per reading below the header.'
    return { ok: false, faults: [{ code: 'bad-input', place, value: 'the table', problem: 'has no readings', mend }] }
  }
  const entries = table.rows.map((row) => rowEntry(table, found.at, row))
  return gather(entries, {}, table.notes, options.tester)
}

type ColumnsAt = Extract<ReturnType<typeof findColumns<typeof readingFields>>, { ok: true }>['at']

const rowEntry = (table: Table, at: ColumnsAt, row: Table['rows'][number]): Entry => ({
  text: (field) => {
    const column = at[field]
    return column === undefined ? '' : row.cells[column.index]!
  },
  unit: (field) => at[field]?.unit,
  place: (field) => ({
    ...(table.file === undefined ? {} : { file: table.file }),
    row: row.row,
    field: at[field]?.name ?? field,
  }),
  decimal: table.decimal,
})

const cell = z.union([z.string(), z.number()])

const field = (name: ReadingField) => {
  const { description, example } = readingFields.find((f) => f.name === name)!
  return cell.meta({ description, examples: [example] })
}

const entrySchema = z.strictObject({
  part: field('part'),
  type: field('type').optional(),
  reads: field('reads'),
  shown: field('shown'),
  range: field('range').optional(),
  scale: field('scale').optional(),
  point: field('point').optional(),
  supply: field('supply').optional(),
  ambient: field('ambient').optional(),
  at: field('at').optional(),
  note: field('note').optional(),
})

const fileSchema = z
  .strictObject({
    format: z.literal('germane/readings/1').meta({ description: 'Form of this file.' }),
    ambient: cell.optional().meta({ description: 'Ambient temperature for all readings.', examples: ['21 degC'] }),
    readings: z.array(entrySchema).min(1).meta({ description: 'The readings, in any order.' }),
  })
  .meta({ title: 'Readings', description: `Readings for Germane. What can be read: ${readingKinds.join(', ')}.` })

/** JSON Schema (2020-12) of a file of readings. */
export const readingsSchema = (): Readonly<Record<string, unknown>> =>
  z.toJSONSchema(fileSchema, { io: 'input' }) as Readonly<Record<string, unknown>>

function readReadingsDocument(text: string, options: ReadingsOptions): ReadingsRead {
  const read = readYaml(text, fileOption(options))
  if (!read.ok) return read
  const checked = checkWith(fileSchema, read.document)
  if (!checked.ok) return checked
  const { ambient, readings } = checked.data
  const common = ambient === undefined ? {} : commonAmbient(String(ambient), read.document)
  if (Array.isArray(common)) return { ok: false, faults: common }
  const entries = readings.map((r, i) => documentEntry(read.document, r, i))
  return gather(entries, common as FileAmbient, [], options.tester)
}

function commonAmbient(text: string, document: TextDocument): FileAmbient | readonly Fault[] {
  const parsed = parseValue(text, { unit: 'degC' })
  const refuse = ({ problem, mend }: { problem: string; mend: string }) => [
    documentFault(document, ['ambient'], problem, mend),
  ]
  if (!parsed.ok) return refuse(parsed)
  const problem = ambientProblem(parsed.value)
  return problem === undefined ? ambientOf(parsed) : refuse(problem)
}

const documentEntry = (
  document: TextDocument,
  data: Readonly<Partial<Record<ReadingField, string | number | undefined>>>,
  index: number,
): Entry => ({
  text: (field) => String(data[field] ?? '').trim(),
  unit: () => undefined,
  place: (field) => placeOf(document, ['readings', index, field]),
  decimal: 'either',
})

/**
 * Writes readings as a table that reads back as the same readings. What was typed is kept where it can be read without
 * the file it came from.
 */
export function readingsCsv(readings: readonly Reading[]): string {
  const rows = readings.map((r) => readingFields.map((f) => fieldText(r, f.name)))
  return writeCsv(
    readingFields.map((f) => f.name),
    rows,
  )
}

function fieldText(r: Reading, field: ReadingField): string {
  switch (field) {
    case 'shown':
      return shownText(r)
    case 'point':
      // leakages of a run sheet stand before its first point
      return r.point < 1 ? '' : String(r.point)
    case 'supply':
      return r.supplyV === undefined ? '' : `${r.supplyV} V`
    case 'ambient': {
      const u = r.ambientU === undefined ? '' : ` +- ${r.ambientU} degC`
      return r.ambientC === undefined ? '' : `${r.ambientC} degC${u}`
    }
    default:
      return r[field] ?? ''
  }
}

/** The text typed, where it says the same by itself; else the value in plain SI. */
function shownText(r: Reading): string {
  const read = readShown(r.seen, r.reads)
  if (read.ok && JSON.stringify(read.shown) === JSON.stringify(r.shown)) return r.seen
  switch (r.shown.kind) {
    case 'deflection':
      return `${r.shown.divisions} div`
    case 'value':
      return r.shown.unit === '1' ? String(r.shown.value) : `${r.shown.value} ${r.shown.unit}`
    case 'state':
      return r.shown.state
  }
}
