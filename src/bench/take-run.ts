import { addReading, type BookReading, correctReading, finishRun, type Run, readings, runs, startRun } from '#book'
import type { RunSheet } from '#core/sheet'
import type { Reading } from '#core/tester'
import { type Bench, bookOf, type KnownTester } from './bench.ts'
import { keepTester, settleRun } from './keep.ts'
import type { Judged } from './measure.ts'

/** Opens a run in the book: the tester is kept, the sheet goes with it. */
export async function beginRun(bench: Bench, known: KnownTester, sheet: RunSheet, note?: string): Promise<Run> {
  await keepTester(bench, known)
  return startRun(
    bookOf(bench),
    {
      tester: known.tester.id,
      sheet,
      ...(sheet.partType === undefined ? {} : { partType: sheet.partType }),
      ambientC: sheet.wishes.ambientC,
      ambientU: sheet.wishes.ambientU,
      ...(note === undefined ? {} : { note }),
    },
    bench.now(),
  )
}

/** Runs that were begun and not ended, newest last. */
export const openRuns = (bench: Bench): Promise<Run[]> => runs(bookOf(bench), { state: 'open' })

/** Readings of a run that count. */
export const runReadings = (bench: Bench, run: number): Promise<BookReading[]> =>
  readings(bookOf(bench), { run, current: true })

/** Keeps a reading; where the same step was read before, the new one corrects it. Durable when the promise is kept. */
export async function keepReading(bench: Bench, run: number, reading: Reading): Promise<BookReading> {
  const book = bookOf(bench)
  const before = (await runReadings(bench, run)).find(
    ({ reading: r }) =>
      r.part === reading.part && r.reads === reading.reads && r.point === reading.point && r.range === reading.range,
  )
  return before === undefined
    ? addReading(book, { run, reading }, bench.now())
    : correctReading(book, { replaces: before.id, reading }, bench.now())
}

/** Ends a run and keeps its results. */
export async function endRun(bench: Bench, run: number): Promise<Judged> {
  await finishRun(bookOf(bench), { run }, bench.now())
  return settleRun(bench, run)
}
