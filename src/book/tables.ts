import type { Generated, Insertable, Selectable } from 'kysely'
import type { JobTable, PositionTable, ReservedTable } from './job-tables.ts'

/** Text that holds JSON. */
export type Json = string

/** Rows as they lie in the file, one interface per table. `docs/reference/book.md` says what each column means. */
export interface Tables {
  readonly setting: SettingTable
  readonly tester: TesterTable
  readonly tester_version: TesterVersionTable
  readonly part_type: PartTypeTable
  readonly lot: LotTable
  readonly part: PartTable
  readonly edit: EditTable
  readonly run: RunTable
  readonly reading: ReadingTable
  readonly import_log: ImportLogTable
  readonly result: ResultTable
  readonly parameter: ParameterTable
  readonly verdict: VerdictTable
  readonly newest: NewestTable
  readonly curve: CurveTable
  readonly job: JobTable
  readonly position: PositionTable
  readonly reserved: ReservedTable
  readonly found: FoundTable
  readonly check_standard: CheckStandardTable
  readonly photo: PhotoTable
  readonly journal: JournalTable
  readonly withdrawn: WithdrawnTable
  readonly taken: TakenTable
}

interface SettingTable {
  name: string
  value: Json
}

interface TesterTable {
  id: string
  name: string
}

interface TesterVersionTable {
  id: Generated<number>
  tester: string
  version: number
  description: string | null
  parsed: Json
  at: string
}

interface PartTypeTable {
  id: Generated<number>
  type: string
  version: number
  record: Json
  at: string
}

interface LotTable {
  id: Generated<number>
  name: string
  note: string | null
  at: string
}

interface PartTable {
  id: Generated<number>
  tag: string
  type: string | null
  lot: number | null
  place: string | null
  note: string | null
  status: string
  at: string
  used_in: string | null
}

interface EditTable {
  id: Generated<number>
  part: number
  field: string
  old: string | null
  new: string | null
  at: string
}

interface RunTable {
  id: Generated<number>
  tester_version: number
  part_type: Json | null
  sheet: Json | null
  ambient: number | null
  ambient_u: number | null
  note: string | null
  state: string
  started_at: string
  finished_at: string | null
}

interface ReadingTable {
  id: Generated<number>
  run: number
  part: number
  type: string | null
  reads: string
  shown: Json
  seen: string
  range: string | null
  scale: string | null
  point: number
  supply: number | null
  ambient: number | null
  ambient_u: number | null
  at: string | null
  note: string | null
  replaces: number | null
  entered_at: string
}

interface ImportLogTable {
  id: Generated<number>
  file: string
  hash: string
  rows: number
  run: number
  at: string
}

interface ResultTable {
  run: number
  part: number
  type: string | null
  state: string
  doubts: Json
  at: string
}

interface ParameterTable {
  id: Generated<number>
  run: number
  part: number
  symbol: string
  value: number
  uncertainty: number
  unit: string
  formula: string | null
  version: number | null
  record: Json
}

interface VerdictTable {
  id: Generated<number>
  run: number
  part: number
  symbol: string
  verdict: string
  probability: number | null
  record: Json
}

interface NewestTable {
  part: number
  run: number
  state: string
  verdict: string | null
  figures: Json
}

interface CurveTable {
  id: Generated<number>
  part: number
  kind: string
  polarity: string
  temperature: number | null
  taken_at: string | null
  file: string
  hash: string
  note: string | null
  notes: Json
  points: Json
  at: string
}

interface FoundTable {
  id: Generated<number>
  tester: string
  day: string
  note: string | null
  parts: Json
  removed: Generated<number>
  at: string
}

interface CheckStandardTable {
  id: Generated<number>
  tester: string
  part: number
  symbol: string
  low: number | null
  high: number | null
  removed: Generated<number>
  at: string
}

interface PhotoTable {
  id: Generated<number>
  part: number | null
  job: number | null
  name: string
  type: string
  removed: Generated<number>
  at: string
  bytes: Uint8Array
}

interface JournalTable {
  id: Generated<number>
  kind: string
  say: string
  change: Json
  undoes: number | null
  at: string
}

interface WithdrawnTable {
  kind: string
  name: string
  at: string
}

interface TakenTable {
  client: string
  reading: number
}

export type PartRow = Selectable<PartTable>
export type RunRow = Selectable<RunTable>
export type ReadingRow = Selectable<ReadingTable>
export type NewReadingRow = Insertable<ReadingTable>

/**
 * Tables in an order in which every row comes after the rows it points to. What the database makes by itself from other
 * rows is not among them: `touched`, and the indexes of words.
 */
export const tableNames = [
  'setting',
  'tester',
  'tester_version',
  'part_type',
  'lot',
  'part',
  'edit',
  'run',
  'reading',
  'import_log',
  'result',
  'parameter',
  'verdict',
  'newest',
  'curve',
  'job',
  'position',
  'reserved',
  'found',
  'check_standard',
  'photo',
  'journal',
  'withdrawn',
  'taken',
] as const satisfies readonly (keyof Tables)[]

/** Columns whose text is JSON. */
export const jsonColumns: Readonly<Partial<Record<keyof Tables, readonly string[]>>> = {
  setting: ['value'],
  tester_version: ['parsed'],
  part_type: ['record'],
  run: ['part_type', 'sheet'],
  reading: ['shown'],
  result: ['doubts'],
  parameter: ['record'],
  verdict: ['record'],
  newest: ['figures'],
  curve: ['notes', 'points'],
  found: ['parts'],
  journal: ['change'],
}

/** Columns of bytes; an export writes them in base64. */
export const byteColumns: Readonly<Partial<Record<keyof Tables, readonly string[]>>> = { photo: ['bytes'] }
