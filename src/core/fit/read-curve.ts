import { type Fault, FaultError } from '#core/fault'
import { parseValue, type Unit } from '#core/quantity'
import {
  type Column,
  columnUnit,
  findColumns,
  headerText,
  type KnownColumn,
  nearNames,
  type Row,
  readCsv,
  type Table,
} from '#core/text'
import type { Curve, CurvePoint, CurveSymbol, FitKind } from './curve.ts'

export interface ReadCurveOptions {
  /** Name shown in faults, and of a curve whose rows name no part. */
  readonly file?: string
  /** Other headers: header to symbol, `{ "Ch1": "V_BE" }`. */
  readonly columns?: Readonly<Record<string, string>>
}

export type CurvesRead =
  | { readonly ok: true; readonly curves: readonly Curve[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** The quantities a curve of a kind may hold; the last of each is read against the others. */
export const symbolsOf: Readonly<Record<FitKind, readonly CurveSymbol[]>> = {
  diode: ['V_F', 'I_F', 'V_R', 'I_R', 'T'],
  bjt: ['V_BE', 'V_CE', 'I_B', 'I_C'],
  jfet: ['V_GS', 'V_DS', 'I_D'],
  mosfet: ['V_GS', 'V_DS', 'I_D'],
}

const alsoNamed: Readonly<Partial<Record<CurveSymbol, readonly string[]>>> = {
  V_F: ['V', 'VD'],
  I_F: ['I', 'ID'],
  I_R: ['I_CBO', 'I_EBO'],
  T: ['temperature'],
}

const isCurrent = (s: CurveSymbol): boolean => s.startsWith('I')

const unitOf = (s: CurveSymbol): Unit => (s === 'T' ? 'degC' : isCurrent(s) ? 'A' : 'V')

function knownColumns(kind: FitKind): readonly KnownColumn[] {
  const symbols = symbolsOf[kind]
  const last = symbols.filter(isCurrent)
  return [
    { name: 'part', also: ['tag'], description: 'the tag of the part, where the file holds several.' },
    ...symbols.map((name) => ({ name, also: alsoNamed[name] ?? [], description: `${name} of each row.` })),
    ...symbols.map((name) => ({
      name: `u(${name})`,
      also: [`sigma_${name}`, ...(name === last[kind === 'bjt' ? 1 : 0] ? ['sigma', 'u'] : [])],
      description: `standard uncertainty of ${name}.`,
    })),
  ]
}

/**
 * Reads a file of curves: a table with a row for each point, columns named by symbol (`V_BE`, `I_C`; `Vbe` and `ic` are
 * the same), units in the header or in the cell and SI where there are none. Empty cells are gaps. A column `part` tells
 * several parts apart. Either every cell is good, or all faults come back together with row, column, value and mend.
 *
 * @example readCurves('V_F [mV],I_F [uA]\n450,12.5\n500,39\n', 'diode', { file: 'D1.csv' })
 */
export function readCurves(text: string, kind: FitKind, options: ReadCurveOptions = {}): CurvesRead {
  const read = readCsv(text, options.file === undefined ? {} : { file: options.file })
  if (!read.ok) return read
  const table = { ...read.table, columns: read.table.columns.map((c) => renamed(c, options.columns ?? {})) }
  const mapped = mappingFaults(read.table, kind, options)
  if (mapped.length > 0) return { ok: false, faults: mapped }
  const found = findColumns(table, knownColumns(kind))
  if (!found.ok) return found
  const at = found.at as Readonly<Record<string, Column | undefined>>
  const faults: Fault[] = []
  const parts = new Map<string, CurvePoint[]>()
  for (const row of table.rows) {
    const point = readPoint(row, table, kind, at, faults)
    const name = (at.part === undefined ? '' : row.cells[at.part.index]!) || (options.file ?? 'curve')
    const known = parts.get(name)
    if (known === undefined) parts.set(name, [point])
    else known.push(point)
  }
  if (parts.size === 0) faults.push(wholeFault(table, 'has no rows', 'Add a row for each point.'))
  if (!symbolsOf[kind].some((s) => isCurrent(s) && at[s] !== undefined))
    faults.push(
      wholeFault(table, 'has no current', `Add a column named ${symbolsOf[kind].filter(isCurrent).join(' or ')}.`),
    )
  if (faults.length > 0) return { ok: false, faults }
  const notes = [...table.notes, ...unitNotes(at, kind)]
  return { ok: true, curves: [...parts].map(([name, points]) => curveOf(name, kind, points, notes)) }
}

function wholeFault(table: Table, problem: string, mend: string): Fault {
  const place = table.file === undefined ? {} : { file: table.file }
  return { code: 'bad-input', place, value: 'the table', problem, mend }
}

function renamed(c: Column, columns: Readonly<Record<string, string>>): Column {
  const to = columns[c.name] ?? columns[headerText(c)]
  return to === undefined ? c : { ...c, name: to }
}

/** Names on either side of a mapping that are not there. */
function mappingFaults(table: Table, kind: FitKind, options: ReadCurveOptions): readonly Fault[] {
  const headers = table.columns.map((c) => c.name)
  const targets = knownColumns(kind).map((k) => k.name)
  return Object.entries(options.columns ?? {}).flatMap(([from, to]): Fault[] => [
    ...(headers.includes(from) || table.columns.some((c) => headerText(c) === from)
      ? []
      : [
          {
            code: 'not-found' as const,
            what: 'column in this file',
            name: from,
            near: nearNames(from, headers),
            mend: `Its columns are: ${headers.join(', ')}.`,
          },
        ]),
    ...(targets.includes(to)
      ? []
      : [
          {
            code: 'not-found' as const,
            what: `quantity of a ${kind} curve`,
            name: to,
            near: nearNames(to, targets),
            mend: `Quantities known here: ${targets.join(', ')}.`,
          },
        ]),
  ])
}

function readPoint(
  row: Row,
  table: Table,
  kind: FitKind,
  at: Readonly<Record<string, Column | undefined>>,
  faults: Fault[],
): CurvePoint {
  const values: Partial<Record<CurveSymbol, number>> = {}
  const u: Partial<Record<CurveSymbol, number>> = {}
  for (const symbol of symbolsOf[kind]) {
    const value = readCell(row, table, at[symbol], symbol, faults)
    if (value !== undefined) values[symbol] = value.value
    if (symbol === 'T' && value !== undefined && !(value.value >= -200 && value.value <= 300))
      faults.push(cellFault(row, table, at.T!, 'is no temperature of a part', 'Give it in °C, between -200 and 300.'))
    const spread = readCell(row, table, at[`u(${symbol})`], symbol, faults)?.value
    if (spread !== undefined && !(spread > 0))
      faults.push(cellFault(row, table, at[`u(${symbol})`]!, 'is no uncertainty', 'Give one above 0.'))
    const known = spread ?? value?.u
    if (known !== undefined && known > 0) u[symbol] = known
  }
  return { row: row.row, values, u }
}

function readCell(
  row: Row,
  table: Table,
  column: Column | undefined,
  symbol: CurveSymbol,
  faults: Fault[],
): { readonly value: number; readonly u?: number } | undefined {
  const cell = column === undefined ? '' : row.cells[column.index]!
  if (column === undefined || cell === '') return undefined
  const unit = unitOf(symbol)
  const isBare = /^[+\-\d.,\seE()±]+$/.test(cell)
  const text = isBare && column.unit !== undefined ? `${cell} ${column.unit}` : cell
  const parsed = parseValue(text, { unit, decimal: table.decimal })
  if (!parsed.ok) {
    faults.push(cellFault(row, table, column, parsed.problem, parsed.mend))
    return undefined
  }
  return parsed
}

function cellFault(row: Row, table: Table, column: Column, problem: string, mend: string): Fault {
  const file = table.file === undefined ? {} : { file: table.file }
  const place = { ...file, row: row.row, field: column.name }
  return { code: 'bad-input', place, value: row.cells[column.index]!, problem, mend }
}

function unitNotes(at: Readonly<Record<string, Column | undefined>>, kind: FitKind): readonly string[] {
  const bare = symbolsOf[kind].filter((s) => s !== 'T' && at[s] !== undefined && columnUnit(at[s]!) === undefined)
  return bare.length === 0 ? [] : [`Numbers without a unit are taken in V and A: ${bare.join(', ')}.`]
}

/** A base current above that of the collector in most rows: two columns that stand in each other's place. */
function swapNotes(points: readonly CurvePoint[]): readonly string[] {
  const both = points.filter(({ values }) => values.I_B !== undefined && values.I_C !== undefined)
  const odd = both.filter(({ values }) => Math.abs(values.I_B!) > Math.abs(values.I_C!))
  return odd.length > both.length / 2
    ? ['I_B is above I_C in most rows, so that there is no gain: see that the two columns are not swapped.']
    : []
}

/** One part's curve, its signs turned to those of NPN or n-channel. */
function curveOf(name: string, kind: FitKind, points: readonly CurvePoint[], told: readonly string[]): Curve {
  const notes = [...told, ...swapNotes(points)]
  const main: CurveSymbol = kind === 'bjt' ? 'I_C' : 'I_D'
  const other: CurveSymbol = kind === 'bjt' ? 'I_B' : 'I_D'
  let sign = 0
  for (const p of points) sign += Math.sign(p.values[main] ?? p.values[other] ?? 0)
  const isP = kind !== 'diode' && sign < 0
  if (!isP) return { name, kind, polarity: 'n', points, notes }
  const turned = points.map((p) => ({
    ...p,
    values: Object.fromEntries(Object.entries(p.values).map(([s, v]) => [s, -v])),
  }))
  const said = `Currents are below zero: read as ${kind === 'bjt' ? 'PNP' : 'p-channel'}.`
  return { name, kind, polarity: 'p', points: turned, notes: [...notes, said] }
}

/** The curves of a file, or everything that is wrong with it. @throws {FaultError} */
export function curvesOf(text: string, kind: FitKind, options: ReadCurveOptions = {}): readonly Curve[] {
  const read = readCurves(text, kind, options)
  if (read.ok) return read.curves
  throw new FaultError(read.faults)
}
