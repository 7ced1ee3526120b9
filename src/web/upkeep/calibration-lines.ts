import { FaultError } from '#core/fault'
import { printPlain } from '#core/quantity'
import { type CalibrationPoint, type Readout, readoutName, scaleOf, type Tester } from '#core/tester'
import { writeCsv } from '#core/text'
import { readCalibration } from '#core/upkeep'

/** One reading against the reference, as typed. */
export interface Line {
  readonly reference: string
  readonly shown: string
  readonly way: '' | 'up' | 'down'
}

export const isBlank = ({ reference, shown }: Line): boolean => reference.trim() === '' && shown.trim() === ''

const isWhole = ({ reference, shown }: Line): boolean => reference.trim() !== '' && shown.trim() !== ''

/** A line understood, or what is wrong with it and in which field. */
export interface LineRead {
  readonly point?: CalibrationPoint
  readonly fault?: string
  readonly faultIn?: 'reference' | 'shown'
}

export interface LinesRead {
  readonly lines: readonly LineRead[]
  readonly points: readonly CalibrationPoint[]
  /** What is wrong with them together. */
  readonly fault?: string
}

/** Units that a bare number of a range takes: those of its print, and divisions for what a needle shows; a gain has none. */
export function bareUnits(
  tester: Tester,
  { range, unit, fullScale }: Readout,
): { readonly reference: string; readonly shown: string } {
  if (range === undefined) return { reference: '', shown: '' }
  const printed = printPlain(fullScale, unit, { ascii: true }).split(' ').at(-1)!
  return { reference: printed, shown: scaleOf(tester, range) === undefined ? printed : 'div' }
}

/** Reads the lines of a range or span; those that are not whole yet are passed over. */
export function readLines(tester: Tester, readout: Readout, lines: readonly Line[]): LinesRead {
  const whole = lines.flatMap((line, i) => (isWhole(line) ? [i] : []))
  const read: LineRead[] = lines.map(() => ({}))
  if (whole.length === 0) return { lines: read, points: [] }
  const first = pointsOf(tester, readout, lines, whole)
  for (const f of first.faults) {
    const i = f.row === undefined ? undefined : whole[f.row - firstRow]
    if (i !== undefined)
      read[i] = { fault: f.say, ...(f.field === 'shown' ? { faultIn: 'shown' } : { faultIn: 'reference' }) }
  }
  const good = whole.filter((i) => read[i]!.fault === undefined)
  const { points, faults } = good.length === whole.length ? first : pointsOf(tester, readout, lines, good)
  points.forEach((point, k) => {
    read[good[k]!] = { point }
  })
  return { lines: read, points, ...(faults.length === 0 ? {} : { fault: faults[0]!.say }) }
}

/** Row of a table in which the first line stands; the header is row 1. */
const firstRow = 2

interface LineFault {
  readonly row?: number
  readonly field?: string
  readonly say: string
}

function pointsOf(
  tester: Tester,
  readout: Readout,
  lines: readonly Line[],
  which: readonly number[],
): { readonly points: readonly CalibrationPoint[]; readonly faults: readonly LineFault[] } {
  const { reference, shown } = bareUnits(tester, readout)
  const inUnit = (name: string, unit: string): string => (unit === '' ? name : `${name} [${unit}]`)
  const rows = which.map((i) => [readoutName(readout), lines[i]!.reference, lines[i]!.shown, lines[i]!.way])
  try {
    const csv = writeCsv(['range', inUnit('reference', reference), inUnit('shown', shown), 'way'], rows)
    return { points: readCalibration(csv, '', tester)[0]?.points ?? [], faults: [] }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    return { points: [], faults: error.faults.map(lineFault) }
  }
}

function lineFault(f: FaultError['faults'][number]): LineFault {
  if (f.code !== 'bad-input') return { say: new FaultError(f).message }
  const { row, field } = f.place
  const say = `“${f.value}” ${f.problem}. ${f.mend}`
  return { say, ...(row === undefined || field === undefined ? {} : { row, field }) }
}

/** Points to read: five up the scale and back down, or as many as asked. */
export function laidOut({ unit, least, fullScale }: Readout, count = 5): readonly Line[] {
  const at = Array.from({ length: count }, (_, i) =>
    printPlain(least + ((fullScale - least) * (i + 1)) / count, unit, { digits: 4 }),
  )
  return [
    ...at.map((reference): Line => ({ reference, shown: '', way: 'up' })),
    ...at.toReversed().map((reference): Line => ({ reference, shown: '', way: 'down' })),
  ]
}
