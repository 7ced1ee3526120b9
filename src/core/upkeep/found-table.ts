import { type Fault, FaultError } from '#core/fault'
import { limitTerm, parseValue, printPlain, type Unit } from '#core/quantity'
import type { Tester } from '#core/tester'
import { type Column, findColumns, nearNames, type Row, readCsv, type Table, writeCsv } from '#core/text'
import { cellFault, cellNumber, cellText, tableFault } from './table-cell.ts'
import type { TesterPart } from './tester-part.ts'
import { testerParts } from './tester-parts.ts'

/** A part as it was found, with the standard uncertainty of the measurement. */
export interface FoundValue {
  readonly part: TesterPart
  readonly value: number
  readonly u: number
}

const columns = [
  { name: 'part', required: true, description: 'the part, as the empty sheet names it.' },
  { name: 'measured', also: ['found', 'value'], required: true, description: 'what was measured, with its unit.' },
  {
    name: 'accuracy',
    also: ['meter'],
    description: "the meter's limit of error: 0.5 %, 20 mohm, or 0.5 % + 20 mohm.",
  },
  { name: 'should be', description: 'what the empty sheet says is allowed; for you to read.' },
  { name: 'how', description: 'how to measure it; for you to read.' },
] as const

/** What a part should be, as people read it. */
export function shouldBe(p: TesterPart): string {
  const { min, max } = p.allowed
  const say = (x: number): string => printPlain(x, p.unit, { digits: 5 })
  if (min !== undefined && max !== undefined) return `${say(min)} to ${say(max)}`
  return max === undefined ? `at least ${say(min!)}` : `at most ${say(max)}`
}

/** The empty sheet of a tester: a row for each part, with room for what is measured. CSV. */
export const foundSheet = (t: Tester): string =>
  writeCsv(
    ['part', 'should be', 'measured', 'accuracy', 'how'],
    testerParts(t).map((p) => [p.id, shouldBe(p), '', '', p.how]),
  )

interface Columns {
  readonly part: Column
  readonly measured: Column
  readonly accuracy: Column | undefined
}

/**
 * Reads a filled sheet; rows without a measured value are passed over.
 *
 * @throws {FaultError} every fault of the table, with row, column, value and mend
 */
export function readFound(text: string, file: string, tester: Tester): readonly FoundValue[] {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const named = findColumns(table, columns)
  if (!named.ok) throw new FaultError(named.faults)
  const at: Columns = { part: named.at.part!, measured: named.at.measured!, accuracy: named.at.accuracy }
  const parts = new Map(testerParts(tester).map((p) => [plain(p.id), p] as const))
  const faults: Fault[] = []
  const values = new Map<TesterPart, FoundValue>()
  for (const row of table.rows) {
    if (cellText(row, at.measured) === '') continue
    const part = parts.get(plain(cellText(row, at.part)))
    if (part === undefined) faults.push(unknownPart(table, row, at.part, tester, [...parts.values()]))
    else if (values.has(part))
      faults.push(cellFault(table, row, at.part, 'stands there twice', 'Keep one row for each part.'))
    else {
      const value = valueIn(table, row, at, part, faults)
      if (value !== undefined) values.set(part, value)
    }
  }
  if (faults.length === 0 && values.size === 0)
    faults.push(tableFault(table, 'measured', 'is empty in every row', 'Write at least one measured value.'))
  if (faults.length > 0) throw new FaultError(faults)
  return [...values.values()]
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[\s_]+/g, '')
    .replaceAll(/[µμ]/g, 'u')

function unknownPart(table: Table, row: Row, column: Column, t: Tester, parts: readonly TesterPart[]): Fault {
  const ids = parts.map((p) => p.id)
  const near = nearNames(cellText(row, column), ids)
  const some = near.length === 0 ? ids.slice(0, 6) : near
  return cellFault(
    table,
    row,
    column,
    `is no part of ${t.name}`,
    `Its parts are those of the empty sheet: ${some.join(', ')}.`,
  )
}

function valueIn(table: Table, row: Row, at: Columns, part: TesterPart, faults: Fault[]): FoundValue | undefined {
  const parsed = cellNumber(table, row, at.measured, part.unit, faults)
  if (parsed === undefined) return undefined
  const isBare = /^[+\-\d.,\seE]+$/.test(cellText(row, at.measured))
  if (isBare && at.measured.unit === undefined && parsed.value !== 0) {
    faults.push(
      cellFault(
        table,
        row,
        at.measured,
        'has no unit',
        `Write the unit with it: ${printPlain(parsed.value, part.unit)}.`,
      ),
    )
    return undefined
  }
  if (!(parsed.value > 0 || (parsed.value === 0 && part.nominal === 0))) {
    faults.push(
      cellFault(
        table,
        row,
        at.measured,
        'is not above 0',
        'Write what was measured; leave the row of an open part empty, and look for trouble by what the tester shows.',
      ),
    )
    return undefined
  }
  const u = accuracyU(table, row, at.accuracy, part.unit, parsed.value, faults)
  return u === undefined ? undefined : { part, value: parsed.value, u: Math.hypot(parsed.u ?? 0, u) }
}

/** Standard uncertainty from a limit of error in which every value is equally likely (JCGM 100:2008, 4.3.7). */
function accuracyU(
  table: Table,
  row: Row,
  column: Column | undefined,
  unit: Unit,
  value: number,
  faults: Fault[],
): number | undefined {
  const text = cellText(row, column).replace(/^(\+-|\+\/-|±)\s*/, '')
  if (column === undefined || text === '') return 0
  let limit = 0
  for (const piece of text.replaceAll(/[()]/g, '').split('+')) {
    const isPart = piece.includes('%')
    const parsed = parseValue(piece.trim(), { unit: isPart ? '1' : unit, decimal: table.decimal })
    if (!parsed.ok || parsed.value < 0) {
      const mend = 'Write it as 0.5 %, 20 mohm, or 0.5 % + 20 mohm.'
      faults.push(cellFault(table, row, column, parsed.ok ? 'is below 0' : parsed.problem, mend))
      return undefined
    }
    limit += isPart ? parsed.value * value : parsed.value
  }
  return limitTerm('accuracy', 'accuracy', limit).u
}

/** Invented values of some parts of the Larkfield sample: a burnt shunt, a dirty contact, tired cells. */
export const foundExampleCsv = `part,measured,accuracy
movement,99.4 uA,0.2 uA
coil,1.103 kohm,0.3 %
across movement,400 kohm,1 %
shunt 1 mA,122.3 ohm,0.2 %
shunt 10 mA,12.1 ohm,0.3 %
shunt 100 mA,1.115 ohm,0.3 %
shunt 1 A,110 mohm,0.5 %
contact 1 A,9 mohm,0.5 mohm
shunt 3 A,36.1 mohm,0.5 %
contact 3 A,1.2 mohm,0.2 mohm
multiplier 1 V,8.93 kohm,0.2 %
multiplier 10 V,97.2 kohm,0.2 %
leads,46 mohm,1 mohm
cell collector,1.38 V,5 mV
`
