import { type Fault, FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { findColumns, readCsv } from '#core/text'
import { type ControlChart, type ControlOptions, controlChart, type Subgroup } from './control-chart.ts'
import { type Drift, type DriftBounds, driftOf } from './drift.ts'
import { cellFault, cellNumber, cellText, tableFault, unitOfColumn } from './table-cell.ts'

/** A stable part, read now and then to see whether the tester changes. */
export interface CheckStandard {
  readonly part: string
  readonly unit: Unit
  readonly groups: readonly Subgroup[]
}

/** How a tester holds, seen by one check standard. */
export interface Steadiness {
  readonly part: string
  readonly unit: Unit
  readonly chart: ControlChart
  readonly drift: Drift
  readonly word: 'steady' | 'drifting' | 'out of control'
}

/** Chart and drift of a check standard. `out of control` where a rule is broken among the newest groups, or a bound is. */
export function steadiness(
  s: CheckStandard,
  options: Partial<ControlOptions> = {},
  bounds: DriftBounds = {},
): Steadiness {
  const chart = controlChart(s.groups, options)
  const drift = driftOf(
    chart.points.map((p) => ({ at: p.at, value: p.mean })),
    bounds,
  )
  const newest = new Set(chart.points.slice(-newestGroups).map((p) => p.at))
  const isOut = chart.signals.some((g) => newest.has(g.at)) || drift.outside?.isNow === true
  return {
    part: s.part,
    unit: s.unit,
    chart,
    drift,
    word: isOut ? 'out of control' : drift.isSeen ? 'drifting' : 'steady',
  }
}

/** Rules broken longer ago than so many groups are told, and raise no alarm any more. */
const newestGroups = 5

const columns = [
  { name: 'at', also: ['date', 'when'], required: true, description: 'the date, as 2024-03-31.' },
  { name: 'part', also: ['tag', 'standard'], description: 'the tag of the check standard.' },
  { name: 'reading', also: ['value', 'shown'], required: true, description: 'what was read, with its unit.' },
] as const

/**
 * Reads a table with a row for each reading of a check standard: date, part and reading. Readings of one part and day
 * are a group.
 *
 * @throws {FaultError} every fault of the table, with row, column, value and mend
 */
export function readCheckStandards(text: string, file: string): readonly CheckStandard[] {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const { table } = read
  const found = findColumns(table, columns)
  if (!found.ok) throw new FaultError(found.faults)
  const [at, reading] = [found.at.at!, found.at.reading!]
  const unit = unitOfColumn(table, reading)
  const faults: Fault[] = []
  const byPart = new Map<string, Map<string, number[]>>()
  for (const row of table.rows) {
    const date = cellText(row, at)
    const isDate = /^\d{4}-\d{2}-\d{2}/.test(date) && Number.isFinite(Date.parse(date))
    if (!isDate) faults.push(cellFault(table, row, at, 'is not a date', 'Write it as 2024-03-31.'))
    const value = cellNumber(table, row, reading, unit, faults)
    if (value === undefined || !isDate) continue
    const part = cellText(row, found.at.part) || 'check standard'
    const days = byPart.get(part) ?? new Map<string, number[]>()
    byPart.set(part, days)
    const day = date.slice(0, 10)
    days.set(day, [...(days.get(day) ?? []), value.value])
  }
  if (faults.length > 0) throw new FaultError(faults)
  if (byPart.size === 0)
    throw new FaultError(tableFault(table, 'the table', 'has no rows', 'Add a row for each reading.'))
  return [...byPart].map(([part, days]) => ({
    part,
    unit,
    groups: [...days].map(([day, values]) => ({ at: day, values })),
  }))
}

/** Invented: one germanium transistor read every month for two years; the tester begins to read high. */
export const checkStandardExampleCsv = ((): string => {
  const scatter = [0, 0.8, -0.6, 0.3, -0.9, 0.5, 0.1, -0.4, 0.9, -0.2, 0.6, -0.7]
  const rows = Array.from({ length: 24 }, (_, m) => {
    const at = `${2023 + Math.floor(m / 12)}-${String((m % 12) + 1).padStart(2, '0')}-15`
    const value = 118 + scatter[m % 12]! + scatter[(m * 5) % 12]! / 2 + Math.max(0, m - 12) * 0.25
    return `${at},CS-1,${value.toFixed(1)}`
  })
  return `at,part,reading\n${rows.join('\n')}\n`
})()
