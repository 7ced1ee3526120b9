import { type Fault, FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { findColumns, readCsv } from '#core/text'
import { cellFault, cellNumber, cellText, tableFault, unitOfColumn } from './table-cell.ts'

/** Readings of every part by every hand, equally often. */
export interface GaugeStudy {
  readonly unit: Unit
  readonly parts: readonly string[]
  readonly hands: readonly string[]
  /** `readings[part][hand][trial]`. */
  readonly readings: readonly (readonly (readonly number[])[])[]
}

const columns = [
  { name: 'part', also: ['tag'], required: true, description: 'the tag of the part.' },
  { name: 'hand', also: ['operator', 'appraiser', 'who'], required: true, description: 'who read it.' },
  { name: 'reading', also: ['value', 'shown'], required: true, description: 'what was read, with its unit.' },
] as const

/**
 * Reads a table with a row for each reading: the part, whose hand, and the reading with its unit in the header or in
 * the cell. Every hand reads every part equally often.
 *
 * @throws {FaultError} every fault of the table, with row, column, value and mend
 */
export function readGaugeStudy(text: string, file: string): GaugeStudy {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const found = findColumns(table, columns)
  if (!found.ok) throw new FaultError(found.faults)
  const at = { part: found.at.part!, hand: found.at.hand!, reading: found.at.reading! }
  const unit = unitOfColumn(table, at.reading)
  const faults: Fault[] = []
  const cells = new Map<string, Map<string, number[]>>()
  const hands = new Set<string>()
  for (const row of table.rows) {
    const [part, hand] = [cellText(row, at.part), cellText(row, at.hand)]
    for (const [text, column] of [
      [part, at.part],
      [hand, at.hand],
    ] as const)
      if (text === '') faults.push(cellFault(table, row, column, 'is empty', `Write the ${column.name}.`))
    const value = cellNumber(table, row, at.reading, unit, faults)
    if (value === undefined) continue
    hands.add(hand)
    const ofPart = cells.get(part) ?? new Map<string, number[]>()
    cells.set(part, ofPart)
    ofPart.set(hand, [...(ofPart.get(hand) ?? []), value.value])
  }
  if (faults.length > 0) throw new FaultError(faults)
  const parts = [...cells.keys()]
  const names = [...hands]
  const readings = parts.map((p) => names.map((h) => cells.get(p)!.get(h) ?? []))
  const trials = readings[0]?.[0]?.length ?? 0
  const uneven = parts.flatMap((p, i) =>
    names.flatMap((h, j) => {
      const count = readings[i]![j]!.length
      if (count === trials) return []
      const problem = `was read ${times(count)} by ${h}, and ${parts[0]} ${times(trials)} by ${names[0]}`
      return [tableFault(table, p, problem, 'Let every hand read every part equally often.')]
    }),
  )
  if (uneven.length > 0) throw new FaultError(uneven)
  return { unit, parts, hands: names, readings }
}

/** Invented: ten parts, three people, two readings each, of a leakage current on a needle. */
export const gaugeExampleCsv = ((): string => {
  const parts = [12, 18.5, 24, 31, 38, 44.5, 55, 61.5, 70, 82.5]
  const off = { Ada: [0, 0.5, -0.5, 0, 0.5], Ben: [0.5, 1, 0, 0.5, 0], Cyd: [-0.5, 0, -1, -0.5, 0.5] }
  const rows = parts.flatMap((value, p) =>
    Object.entries(off).flatMap(([hand, by]) =>
      [0, 1].map((trial) => `CX-${p + 1},${hand},${value + by[(p + 2 * trial) % 5]!}`),
    ),
  )
  return `part,hand,reading [uA]\n${rows.join('\n')}\n`
})()

const times = (count: number): string => (count === 1 ? 'once' : `${count} times`)
