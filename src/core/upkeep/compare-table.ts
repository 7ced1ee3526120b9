import { type Fault, FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { type Column, readCsv, type Table } from '#core/text'
import type { PairedPart } from './compare.ts'
import { cellFault, cellNumber, cellText, tableFault, unitOfColumn } from './table-cell.ts'

/** A table of parts read on two testers. */
export interface PairedTable {
  readonly names: readonly [string, string]
  readonly unit: Unit
  readonly parts: readonly PairedPart[]
  readonly notes: readonly string[]
}

/**
 * Reads a table of parts read on two testers: a column `part` (or `tag`), and a column for each tester with its name over
 * it and the unit in brackets, `Larkfield [uA]`. A part may stand in several rows, one for each time it was read; a cell
 * may be empty where only the other tester was read.
 *
 * @throws {FaultError} every fault of the table, with row, column, value and mend
 */
export function readPairedTable(text: string, file: string): PairedTable {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const { tag, first, second } = columnsOf(table)
  const unit = unitOfColumn(table, first)
  const faults: Fault[] = []
  const parts = new Map<string, { readonly first: number[]; readonly second: number[] }>()
  for (const row of table.rows) {
    const part = cellText(row, tag)
    if (part === '') faults.push(cellFault(table, row, tag, 'is no tag of a part', 'Write the tag of the part.'))
    const entry = parts.get(part) ?? { first: [], second: [] }
    parts.set(part, entry)
    for (const [column, into] of [
      [first, entry.first],
      [second, entry.second],
    ] as const) {
      if (cellText(row, column) === '') continue
      const value = cellNumber(table, row, column, unit, faults)
      if (value !== undefined) into.push(value.value)
    }
  }
  if (faults.length > 0) throw new FaultError(faults)
  const all = [...parts].map(([part, values]) => ({ part, ...values }))
  const both = all.filter((p) => p.first.length > 0 && p.second.length > 0)
  const alone = all.filter((p) => !both.includes(p)).map((p) => p.part)
  return {
    names: [first.name, second.name],
    unit,
    parts: both,
    notes: [
      ...table.notes,
      ...(alone.length === 0 ? [] : [`Read on one tester only, and left out: ${alone.join(', ')}.`]),
    ],
  }
}

function columnsOf(table: Table): { readonly tag: Column; readonly first: Column; readonly second: Column } {
  const tag = table.columns.find((c) => /^(part|tag)$/i.test(c.name))
  const [first, second, more] = table.columns.filter((c) => c !== tag)
  if (tag === undefined)
    throw new FaultError(
      tableFault(table, 'part', 'is a column that is missing', 'Add a column "part" with the tag of each part.'),
    )
  if (first === undefined || second === undefined || more !== undefined)
    throw new FaultError(
      tableFault(
        table,
        table.columns.map((c) => c.name).join(', '),
        'are not a part and two testers',
        'Keep one column for each of two testers beside the tags, each with its name and unit: Larkfield [uA].',
      ),
    )
  return { tag, first, second }
}

/** Invented readings of one leakage current on two testers, each part read twice on either. */
export const compareExampleCsv = `part,Larkfield [uA],bench meter [uA]
CX-1,12.0,12.6
CX-1,12.5,12.5
CX-2,18.5,18.2
CX-2,18.0,18.3
CX-3,24.0,25.1
CX-3,24.5,25.0
CX-4,31.0,31.9
CX-4,32.0,32.0
CX-5,38.0,37.8
CX-5,37.5,37.7
CX-6,44.0,45.6
CX-6,45.0,45.5
CX-7,55.0,54.6
CX-7,54.0,54.7
CX-8,61.0,62.4
CX-8,62.0,62.3
CX-9,70.0,71.3
CX-9,71.0,71.2
CX-10,83.0,83.1
CX-10,82.5,83.0
CX-11,90.0,91.8
CX-11,91.0,91.7
CX-12,97.0,97.2
CX-12,96.0,97.3
`
