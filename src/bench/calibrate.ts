import { type Noted, saveTesterNoted } from '#book'
import { FaultError } from '#core/fault'
import { writtenCalibration } from '#core/tester'
import { addToList } from '#core/text'
import { type Calibrated, type CalibrationHead, calibrate, calibrateAgain, readCalibration } from '#core/upkeep'
import { certificateSheet, type Sheet } from '#report/sheet'
import { type Bench, bookOf, type KnownTester, testerFromText } from './bench.ts'
import { patiently } from './patience.ts'

export interface CalibrateInput {
  readonly known: KnownTester
  readonly text: string
  readonly file: string
  readonly head: CalibrationHead
  readonly law?: 'auto' | 'line' | 'curve'
}

/** A calibration worked out, with its certificate. */
export interface CalibrationDone extends Calibrated {
  readonly known: KnownTester
  readonly sheet: Sheet
}

/** Calibrates a tester by a table of readings. @throws {FaultError} every fault of the table */
export function calibrateFile({ known, text, file, head, law }: CalibrateInput): CalibrationDone {
  const { tester } = known
  const done = calibrate(tester, readCalibration(text, file, tester), head, law)
  return { ...done, known, sheet: certificateSheet(tester, done) }
}

/**
 * A calibration kept with its tester, worked out again from its readings.
 *
 * @param date day it was made; the newest where left out
 * @throws {FaultError} `not-found` no calibration of that day, or none with its readings
 */
export function keptCalibration(known: KnownTester, date?: string): CalibrationDone {
  const { tester } = known
  const all = tester.calibrations ?? []
  const found = all.findLast((c) => date === undefined || c.date === date)
  const done = found === undefined ? undefined : calibrateAgain(tester, found)
  if (done === undefined)
    throw new FaultError({
      code: 'not-found',
      what: `calibration of ${tester.name} with its readings`,
      name: date ?? 'the newest',
      near: all.map((c) => c.date),
      mend: 'Keep one with "germane tester calibrate --keep".',
    })
  return { ...done, known, sheet: certificateSheet(tester, done) }
}

/** The tester with the calibration in its description. */
export function withCalibration({
  known,
  calibration,
}: CalibrationDone): KnownTester & { readonly description: string } {
  const { tester } = known
  const before = known.description ?? JSON.stringify(tester)
  const description = addToList(before, 'calibrations', writtenCalibration(tester, calibration))
  return { ...known, tester: testerFromText(description, `${tester.id} with its calibration`).tester, description }
}

/** Keeps a calibration in the book, as a new version of its tester; it corrects every run that is started from now on. */
export const keepCalibration = (bench: Bench, done: CalibrationDone): Promise<Noted> =>
  patiently(() => saveTesterNoted(bookOf(bench), withCalibration(done), bench.now()))

/** The document of a calibration, for scripts. */
export const calibrationDocument = (done: CalibrationDone, kept?: Noted) => ({
  format: 'germane/calibration/1' as const,
  tester: done.known.tester.id,
  calibration: done.calibration,
  ranges: done.ranges.map((r) => ({
    range: r.readout.id,
    ...(r.calibration.unit === undefined ? {} : { unit: r.calibration.unit }),
    trust: r.calibration.trust,
    why: r.calibration.why,
    readings: r.points.length,
    worst: r.worst,
    expanded: r.expanded,
    scatter: r.correction.scatter,
    ...(r.correction.friction === undefined ? {} : { friction: r.correction.friction }),
    ...(r.correction.bend === undefined ? {} : { bend: r.correction.bend }),
    advice: r.advice,
  })),
  ...(kept === undefined ? {} : { version: kept.version }),
})
