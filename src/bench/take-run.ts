import {
  addReading,
  type BookReading,
  correctReading,
  finishRun,
  type Run,
  readings,
  runs,
  saveSetting,
  setting,
  startRun,
} from '#book'
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

const leftOutName = (run: number): string => `left out of run ${run}`

type LeftOut = Readonly<Record<string, readonly string[]>>

const leftOutIn = async (bench: Bench, run: number): Promise<LeftOut> =>
  ((await setting(bookOf(bench), leftOutName(run))) as LeftOut | undefined) ?? {}

/** Ids of the steps that were left out of an open run for a part, so that they are not asked again. */
export const leftOutOf = async (bench: Bench, run: number, part: string): Promise<readonly string[]> =>
  Object.entries(await leftOutIn(bench, run)).find(([tag]) => tag === part)?.[1] ?? []

/** Keeps which steps of an open run were left out for a part. */
export async function keepLeftOut(bench: Bench, run: number, part: string, steps: readonly string[]): Promise<void> {
  const others = Object.entries(await leftOutIn(bench, run)).filter(([tag]) => tag !== part)
  await saveSetting(bookOf(bench), leftOutName(run), Object.fromEntries([...others, [part, steps]]))
}

/** Ends a run and keeps its results. */
export async function endRun(bench: Bench, run: number): Promise<Judged> {
  await finishRun(bookOf(bench), { run }, bench.now())
  return settleRun(bench, run)
}
