import type { Fault, Place } from '#core/fault'
import { parseValue } from '#core/quantity'
import {
  checkWith,
  dataDocument,
  findColumns,
  type KnownColumn,
  type Row,
  readCsv,
  readYaml,
  type Table,
} from '#core/text'
import { leadReadingsSchema, leadRowSchema } from './lead-readings-schema.ts'
import type { LeadReading, Meter } from './meter.ts'
import { parseShows } from './shown-text.ts'

/** A part with what was read between its leads. */
export interface LeadReadings {
  readonly part: string
  /** How many leads it has, where that is said. */
  readonly leads?: 2 | 3
  readonly readings: readonly LeadReading[]
}

export type LeadReadingsRead =
  | { readonly ok: true; readonly parts: readonly LeadReadings[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

interface Wanted {
  readonly file: string
  readonly meter: Meter
}

/** Reads lead-pair readings from JSON or CSV, whichever it is; all faults come back together. */
export const readLeadReadings = (text: string, wanted: Wanted): LeadReadingsRead =>
  /^\s*\{/.test(text) ? fromJson(text, wanted) : fromCsv(text, wanted)

function fromJson(text: string, { file, meter }: Wanted): LeadReadingsRead {
  const read = readYaml(text, { file })
  if (!read.ok) return read
  const checked = checkWith(leadReadingsSchema, read.document)
  if (!checked.ok) return checked
  const faults: Fault[] = []
  const parts = checked.data.cases.map((c, n): LeadReadings => {
    const readings = c.readings.flatMap((at, k) =>
      at.rows.flatMap((cells, r) => {
        const path = `cases[${n + 1}].readings[${k + 1}].rows[${r + 1}]`
        const reading = fromRow(
          Object.fromEntries(at.columns.map((name, i) => [name, cells[i]])),
          { file, path, meter },
          faults,
        )
        if (reading === undefined) return []
        return [at.temperature_degC === undefined ? reading : { ...reading, temperatureC: at.temperature_degC }]
      }),
    )
    return { part: c.id, ...(c.leads === undefined ? {} : { leads: c.leads }), readings }
  })
  return faults.length > 0 ? { ok: false, faults } : { ok: true, parts }
}

interface At {
  readonly file: string
  readonly path: string
  readonly meter: Meter
}

/** A row that tells what was shown in words, by the columns of a table in CSV. */
function fromCells(
  row: Readonly<Record<string, unknown>>,
  { file, path, meter }: At,
  faults: Fault[],
): LeadReading | undefined {
  const names: Readonly<Record<string, string>> = { plus: 'plus_lead', minus: 'minus_lead' }
  const cell: Cells = (name) => String(row[name] ?? row[names[name] ?? ''] ?? '').trim()
  return csvReading(cell, meter, (field, problem, mend) => {
    const value = cell(field)
    faults.push({ code: 'bad-input', place: { file, field: `${path}.${names[field] ?? field}` }, value, problem, mend })
    return undefined
  })
}

function fromRow(
  row: Readonly<Record<string, unknown>>,
  { file, path, meter }: At,
  faults: Fault[],
): LeadReading | undefined {
  if ('shows' in row) return fromCells(row, { file, path, meter }, faults)
  const checked = checkWith(leadRowSchema, dataDocument(row, { file }))
  if (!checked.ok) {
    faults.push(
      ...checked.faults.map((f) =>
        f.code === 'bad-input' ? { ...f, place: { file, field: `${path}.${f.place.field ?? ''}` } } : f,
      ),
    )
    return undefined
  }
  const { plus_lead: plus, minus_lead: minus, v, i, state, joined } = checked.data
  if (plus === minus) {
    faults.push(sameLead({ file, field: path }, String(plus)))
    return undefined
  }
  const shows: LeadReading['shows'] =
    state === 'compliance' ? { kind: 'leak', amperes: i, volts: v } : { kind: 'volts', volts: v }
  return { plus, minus, ...(joined === undefined ? {} : { joined }), shows }
}

const sameLead = (place: Place, value: string): Fault => ({
  code: 'bad-input',
  place,
  value,
  problem: 'is both the plus and the minus lead',
  mend: 'Name two leads.',
})

const columns = [
  { name: 'part', also: ['tag'], required: true, description: 'part, the tag of the part' },
  { name: 'plus', also: ['red'], required: true, description: 'plus, the lead at the positive terminal' },
  { name: 'minus', also: ['black'], required: true, description: 'minus, the lead at the negative terminal' },
  { name: 'shows', also: ['reading'], required: true, description: 'shows, what the meter showed: 0.652 V, open' },
  {
    name: 'joined',
    description: 'joined, plus or minus: where the third lead was joined to through 10 kohm; of a gain, plus for NPN',
  },
  {
    name: 'temperature',
    also: ['t'],
    description: 'temperature, of the part in degrees Celsius, or warm: held between two fingers',
  },
  { name: 'leads', description: 'leads, how many the part has: 2 or 3' },
] as const satisfies readonly KnownColumn[]

type ColumnName = (typeof columns)[number]['name']
type Cells = (name: ColumnName) => string

function fromCsv(text: string, { file, meter }: Wanted): LeadReadingsRead {
  const read = readCsv(text, { file })
  if (!read.ok) return read
  const { table } = read
  const found = findColumns(table, columns)
  if (!found.ok) return found
  const faults: Fault[] = []
  const parts = new Map<string, { leads?: 2 | 3; readings: LeadReading[] }>()
  for (const row of table.rows) {
    const cell: Cells = (name) => (found.at[name] === undefined ? '' : (row.cells[found.at[name].index] ?? '').trim())
    const fault = (field: ColumnName, problem: string, mend: string): undefined => {
      faults.push({ code: 'bad-input', place: placeIn(table, row, field), value: cell(field), problem, mend })
      return undefined
    }
    const tag = cell('part')
    if (tag === '') fault('part', 'is empty', 'Give each part a tag.')
    const part = parts.get(tag) ?? { readings: [] }
    parts.set(tag, part)
    if (/^[23]$/.test(cell('leads'))) part.leads = Number(cell('leads')) as 2 | 3
    else if (cell('leads') !== '') fault('leads', 'is no count of leads', 'Write 2 or 3.')
    const reading = csvReading(cell, meter, fault)
    if (reading !== undefined) part.readings.push(reading)
  }
  if (faults.length > 0) return { ok: false, faults }
  return { ok: true, parts: [...parts].map(([part, rest]) => ({ part, ...rest })) }
}

type Refuse = (field: ColumnName, problem: string, mend: string) => undefined

function csvReading(cell: Cells, meter: Meter, refuse: Refuse): LeadReading | undefined {
  const lead = (name: 'plus' | 'minus'): number | undefined =>
    /^[123]$/.test(cell(name)) ? Number(cell(name)) : refuse(name, 'is no lead', 'Number the leads 1 to 3.')
  const [plus, minus] = [lead('plus'), lead('minus')]
  const shown = parseShows(cell('shows'), meter)
  if (!shown.ok) refuse('shows', shown.problem, shown.mend)
  const joined = cell('joined').toLowerCase()
  if (!['', 'plus', 'minus'].includes(joined))
    refuse('joined', 'is neither plus nor minus', 'Leave it empty where the third lead is open.')
  const isWarmed = isWarm(cell('temperature'))
  const t = isWarmed ? undefined : temperatureOf(cell, refuse)
  if (plus === undefined || minus === undefined || !shown.ok) return undefined
  if (shown.shows.kind === 'gain' && joined === '')
    return refuse('joined', 'does not say for which polarity the gain is', `Write ${gainPolarity}.`)
  if (plus === minus) return refuse('minus', 'is both the plus and the minus lead', 'Name two leads.')
  return {
    plus,
    minus,
    ...(joined === '' ? {} : { joined: joined as 'plus' | 'minus' }),
    ...(isWarmed ? { warmed: true } : {}),
    shows: shown.shows,
    ...(t === undefined ? {} : { temperatureC: t }),
  }
}

/** A part between two fingers, whatever its temperature. */
const isWarm = (text: string): boolean => /^(warm|warmed|fingers?)$/i.test(text)

const gainPolarity = 'plus for an NPN (plus is the collector), minus for a PNP (plus is the emitter)'

function temperatureOf(cell: Cells, refuse: Refuse): number | undefined {
  if (cell('temperature') === '') return undefined
  const parsed = parseValue(cell('temperature'), { unit: 'degC' })
  if (parsed.ok && parsed.value >= -60 && parsed.value <= 150) return parsed.value
  return refuse('temperature', 'is no temperature of a part', 'Give it in degrees Celsius, such as 23.')
}

const placeIn = (table: Table, row: Row, field: string): Place => ({
  ...(table.file === undefined ? {} : { file: table.file }),
  row: row.row,
  field,
})

/** A file of readings that works: four parts of an invented drawer. */
export const leadReadingsExampleCsv = `part,plus,minus,shows
T1,1,2,open
T1,1,3,open
T1,2,1,0.652 V
T1,2,3,0.661 V
T1,3,1,open
T1,3,2,open
T2,1,2,0.231 V
T2,3,2,0.226 V
T2,2,1,open
T2,1,3,open
T3,2,3,0.541 V
T3,1,2,open
T3,1,3,open
D1,1,2,open
D1,2,1,0.291 V
`
