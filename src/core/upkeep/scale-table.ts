import { type Fault, FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { findColumns, readCsv } from '#core/text'
import type { ScalePoint } from './scale-check.ts'
import { cellFault, cellNumber, cellText, unitOfColumn } from './table-cell.ts'

const known = [
  { name: 'true', also: ['reference'], required: true, description: 'a column "true" with what the reference says.' },
  { name: 'up', also: ['shown'], required: true, description: 'a column "up" with what was shown coming from below.' },
  { name: 'down', description: 'a column "down" with what was shown coming from above.' },
] as const

/** Points of a scale as read from a table, with their unit. */
export interface ScaleTable {
  readonly unit: Unit
  readonly points: readonly ScalePoint[]
  readonly notes: readonly string[]
}

/**
 * Reads a table of a scale: columns `true`, `up` and, where it was tried, `down`, all in one unit.
 *
 * @throws {FaultError} every fault of the table, with row, column, value and mend
 */
export function readScaleTable(text: string, file: string): ScaleTable {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const found = findColumns(table, known)
  if (!found.ok) throw new FaultError(found.faults)
  const { at } = found
  const unit = unitOfColumn(table, at.true!)
  const faults: Fault[] = []
  const points = table.rows.flatMap((row) => {
    const value = (name: 'true' | 'up' | 'down'): number | undefined =>
      cellText(row, at[name]) === '' ? undefined : cellNumber(table, row, at[name]!, unit, faults)?.value
    const [ideal, up, down] = [value('true'), value('up'), value('down')]
    for (const name of ['true', 'up'] as const)
      if (cellText(row, at[name]) === '')
        faults.push(cellFault(table, row, at[name]!, 'is empty', 'Write what was read there.'))
    if (ideal === undefined || up === undefined) return []
    return [{ true: ideal, up, ...(down === undefined ? {} : { down }) }]
  })
  if (faults.length > 0) throw new FaultError(faults)
  return { unit, points, notes: table.notes }
}

/** Invented readings of a movement of 100 uA against a reference, up and down. */
export const scaleExampleCsv = `true [uA],up [uA],down [uA]
0,0.4,0.6
20,20.1,20.9
40,40.0,40.8
60,59.8,60.6
80,79.7,80.3
100,99.5,99.5
`
