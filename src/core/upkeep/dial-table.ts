import { type Fault, FaultError } from '#core/fault'
import { findColumns, readCsv } from '#core/text'
import { cellFault, cellNumber, cellText } from './table-cell.ts'

const known = [
  { name: 'mark', also: ['gain'], required: true, description: 'a column "mark" with the gain printed there.' },
  {
    name: 'ohm',
    also: ['resistance'],
    required: true,
    description: 'a column "ohm" with the resistance of the dial there.',
  },
] as const

/** The dial as measured: its resistance at marks of the scale. */
export type DialPoints = readonly { readonly mark: number; readonly ohm: number }[]

/** Reads a table of a dial: columns `mark` and `ohm`. @throws {FaultError} every fault of the table */
export function readDialTable(text: string, file: string): DialPoints {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const found = findColumns(table, known)
  if (!found.ok) throw new FaultError(found.faults)
  const { at } = found
  const faults: Fault[] = []
  const points = table.rows.flatMap((row) => {
    const value = (name: 'mark' | 'ohm'): number | undefined => {
      const column = at[name]!
      const read = cellNumber(table, row, column, name === 'mark' ? '1' : 'ohm', faults)?.value
      if (read !== undefined && !(read > 0))
        faults.push(cellFault(table, row, column, 'is not above 0', 'Write what was read there.'))
      return read
    }
    if (cellText(row, at.mark) === '' && cellText(row, at.ohm) === '') return []
    const [mark, ohm] = [value('mark'), value('ohm')]
    return mark === undefined || ohm === undefined ? [] : [{ mark, ohm }]
  })
  if (faults.length > 0) throw new FaultError(faults)
  return points
}

/** Invented readings of a dial in the base, with 1 kohm in the collector. */
export const dialExampleCsv = `mark,ohm
10,10.4k
20,20.3k
50,50.6k
100,100.1k
150,149.2k
200,198.9k
`
