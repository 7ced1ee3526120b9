import { type Fault, FaultError } from '#core/fault'
import { parseValue } from '#core/quantity'
import {
  type CalibrationPoint,
  findReadout,
  type Readout,
  readoutName,
  readoutsOf,
  scaleOf,
  type Tester,
} from '#core/tester'
import { type Column, findColumns, type Row, readCsv, type Table } from '#core/text'
import type { RangeReadings } from './calibrate.ts'
import { cellFault, cellNumber, cellText, tableFault } from './table-cell.ts'

const columns = [
  { name: 'range', required: true, description: 'the range, or the span of the gain dial, as the tester names it.' },
  {
    name: 'reference',
    required: true,
    description: 'what it truly was, with its unit: 5.02 mA, or 5.02 mA +- 0.01 mA; a gain has none.',
  },
  { name: 'shown', also: ['seen'], required: true, description: 'what the tester showed: 25.2 div, or 5.1 mA.' },
  { name: 'way', also: ['direction'], description: 'up or down: from where the needle came, or the dial was turned.' },
] as const

/**
 * Reads the readings of a calibration: range, reference, what was shown, and from where the needle came.
 *
 * @throws {FaultError} every fault of the table, with row, column, value and mend
 */
export function readCalibration(text: string, file: string, tester: Tester): readonly RangeReadings[] {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const found = findColumns(table, columns)
  if (!found.ok) throw new FaultError(found.faults)
  const at: Columns = {
    range: found.at.range!,
    reference: found.at.reference!,
    shown: found.at.shown!,
    way: found.at.way,
  }
  const faults: Fault[] = []
  const readings = new Map<string, { readonly readout: Readout; readonly points: CalibrationPoint[] }>()
  for (const row of table.rows) {
    const readout = readoutIn(table, row, at.range, tester, faults)
    if (readout === undefined) continue
    const point = pointIn(table, row, at, tester, readout, faults)
    if (point === undefined) continue
    const name = readoutName(readout)
    const own = readings.get(name) ?? { readout, points: [] }
    readings.set(name, own)
    own.points.push(point)
  }
  for (const [name, { points }] of readings)
    if (faults.length === 0 && (points.length < 3 || new Set(points.map((p) => p.shown)).size < 2))
      faults.push(
        tableFault(table, name, 'has too few readings', 'Take at least three, at different places of the scale.'),
      )
  if (faults.length === 0 && readings.size === 0)
    faults.push(tableFault(table, 'the table', 'has no rows', 'Add a row for each reading.'))
  if (faults.length > 0) throw new FaultError(faults)
  return [...readings.values()].map(({ readout: { id, unit }, points }) => ({
    range: id,
    points,
    ...(unit === '1' ? { unit } : {}),
  }))
}

interface Columns {
  readonly range: Column
  readonly reference: Column
  readonly shown: Column
  readonly way: Column | undefined
}

function readoutIn(table: Table, row: Row, column: Column, tester: Tester, faults: Fault[]): Readout | undefined {
  const found = findReadout(tester, cellText(row, column))
  if (!('faults' in found)) return found
  const names = readoutsOf(tester).map(readoutName).join(', ')
  faults.push(cellFault(table, row, column, `is not one range of ${tester.name}`, `Its ranges: ${names}.`))
  return undefined
}

function pointIn(
  table: Table,
  row: Row,
  at: Columns,
  tester: Tester,
  readout: Readout,
  faults: Fault[],
): CalibrationPoint | undefined {
  const before = faults.length
  const reference = valueIn(table, row, at.reference, tester, readout, faults)
  const shown = valueIn(table, row, at.shown, tester, readout, faults)
  const { range } = readout
  if (range !== undefined && shown !== undefined && shown.value > range.fullScale * (1 + 1e-9))
    faults.push(
      cellFault(
        table,
        row,
        at.shown,
        `is beyond the end of ${range.id}`,
        'Check the number, or name the range it was read on.',
      ),
    )
  const way = at.way === undefined ? '' : cellText(row, at.way).toLowerCase()
  if (at.way !== undefined && !['', 'up', 'down'].includes(way))
    faults.push(cellFault(table, row, at.way, 'is neither up nor down', 'Write up, down, or nothing.'))
  if (faults.length > before || reference === undefined || shown === undefined) return undefined
  return {
    shown: shown.value,
    reference: reference.value,
    ...(reference.u === undefined ? {} : { u: reference.u }),
    ...(way === 'up' || way === 'down' ? { way } : {}),
  }
}

/** A value in the unit of the range; of the needle in divisions as well. */
function valueIn(
  table: Table,
  row: Row,
  column: Column,
  tester: Tester,
  readout: Readout,
  faults: Fault[],
): { readonly value: number; readonly u?: number } | undefined {
  const { range, unit } = readout
  if (range === undefined) return cellNumber(table, row, column, unit, faults)
  const cell = cellText(row, column)
  const isBare = /^[+\-\d.,\seE]+$/.test(cell)
  const text = isBare && column.unit !== undefined ? `${cell} ${column.unit}` : cell
  const scale = scaleOf(tester, range)
  const divisions = parseValue(text, { unit: 'div', decimal: table.decimal })
  if (column.name !== 'reference' && scale !== undefined && divisions.ok && !isBareNumber(text))
    return { value: (divisions.value / scale.divisions) * range.fullScale }
  const parsed = parseValue(text, { unit, decimal: table.decimal })
  if (parsed.ok && !isBareNumber(text)) return parsed
  const problem = parsed.ok ? 'has no unit' : parsed.problem
  faults.push(
    cellFault(table, row, column, problem, parsed.ok ? 'Write the unit with it, or over the column.' : parsed.mend),
  )
  return undefined
}

const isBareNumber = (text: string): boolean => /^[+\-\d.,\seE]+$/.test(text)

/** Invented readings of two ranges of the example tester against a bench meter, up and down. */
export const calibrationExampleCsv = ((): string => {
  const rows = [
    ...[2, 4, 6, 8, 10].map((mA, i) => ['10 mA', mA, 'mA', 5 * mA * 0.985 + [0.05, -0.05, 0.1, 0, -0.1][i]!] as const),
    ...[0.2, 0.4, 0.6, 0.8, 1].map((v, i) => ['1 V', v, 'V', 50 * v + [0.1, 0, -0.1, 0.1, -0.1][i]!] as const),
  ]
  const lines = rows.flatMap(([range, reference, unit, div]) => [
    `${range},${reference.toFixed(3)} ${unit} +- ${(reference * 1e-3).toPrecision(1)} ${unit},${(div - 0.05).toFixed(1)} div,up`,
    `${range},${reference.toFixed(3)} ${unit} +- ${(reference * 1e-3).toPrecision(1)} ${unit},${(div + 0.05).toFixed(1)} div,down`,
  ])
  return `range,reference,shown,way\n${lines.join('\n')}\n`
})()
