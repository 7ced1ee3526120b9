import {
  basisOf,
  type CheckReport,
  checkBook,
  contentHash,
  importReadings,
  type Outcome,
  type Recompute,
  type Run,
  saveResults,
  saveTester,
} from '#book'
import type { Rule } from '#core/judge'
import type { Reading, Tester } from '#core/tester'
import { type Bench, bookOf, type KnownTester } from './bench.ts'
import { evidenceAgainst, withoutEvidence } from './evidence.ts'
import {
  type Judged,
  judgeReduced,
  type ReadingsInput,
  type ReadingsList,
  readingsOf,
  reduceList,
  ruleDefaults,
} from './measure.ts'

/** Puts a tester into the book; a changed description makes a new version. */
export const keepTester = (bench: Bench, known: KnownTester) =>
  saveTester(
    bookOf(bench),
    { tester: known.tester, ...(known.description === undefined ? {} : { description: known.description }) },
    bench.now(),
  )

export interface KeepInput extends ReadingsInput {
  readonly known: KnownTester
  /** Lot the parts belong to. */
  readonly lot?: string
  readonly rule?: Rule
  /** Takes a file that was imported before. */
  readonly again?: boolean
  readonly note?: string
}

/** What came into the book from a file. */
export interface Kept {
  readonly run: Run
  readonly judged: Judged
}

/**
 * Takes a file of readings into the book: all of it in one transaction, or nothing; then computes and keeps its results.
 *
 * @throws {FaultError} every fault of the file, one that cannot be reduced included; the file was imported before
 */
export async function keepReadings(bench: Bench, input: KeepInput): Promise<Kept> {
  const { readings, notes } = readingsOf(input)
  const known = await evidenceAgainst(bench, input.tester)
  const judged = judgeReduced(reduceList(bench, { ...input, ...known, readings, notes }), input.rule ?? ruleDefaults)
  const run = await importRun(bench, input, readings)
  await saveResults(bookOf(bench), { run: run.id, outcomes: withoutEvidence(outcomesOf(judged)) }, bench.now())
  return { run, judged }
}

/** Takes a file of readings into the book without computing anything yet. Durable when the promise is kept. */
export const keepReadingsOnly = (bench: Bench, input: KeepInput): Promise<Run> =>
  importRun(bench, input, readingsOf(input).readings)

/** Keeps the tester and the readings of a file as a finished run. */
export async function importRun(bench: Bench, input: KeepInput, readings: Judged['readings']): Promise<Run> {
  await keepTester(bench, input.known)
  const { lot, again, ambientC, ambientU, note } = input
  return importReadings(
    bookOf(bench),
    {
      tester: input.tester.id,
      readings,
      from: input.file,
      hash: contentHash(input.text),
      ...(lot === undefined ? {} : { lot }),
      ...(again === undefined ? {} : { again }),
      ...(ambientC === undefined ? {} : { ambientC }),
      ...(ambientU === undefined ? {} : { ambientU }),
      ...(note === undefined ? {} : { note }),
    },
    bench.now(),
  )
}

/** Results with the verdicts of each part beside them, as the book keeps them. */
export function outcomesOf(judged: Judged): readonly Outcome[] {
  const byPart = new Map(
    judged.results.map((result) => [result.part, { result, verdicts: [] as Judged['verdicts'][number][] }]),
  )
  for (const v of judged.verdicts) byPart.get(v.part)?.verdicts.push(v)
  return [...byPart.values()]
}

/** The readings of a run as they are reduced: one without a date of its own has that of the run. */
export function listOfRun(
  run: Run,
  tester: Tester,
  readings: readonly Reading[],
  known: Pick<ReadingsList, 'against'> = {},
): ReadingsList {
  const { ambientC, ambientU, startedAt } = run
  // the date matters to calibrations, and to parts as found, alone
  const isDated = tester.calibrations === undefined && known.against === undefined
  return {
    tester,
    ...known,
    readings: isDated ? readings : readings.map((r) => (r.at === undefined ? { ...r, at: startedAt } : r)),
    ...(ambientC === undefined ? {} : { ambientC }),
    ...(ambientU === undefined ? {} : { ambientU }),
  }
}

/** Computes the results of a run from its readings as they now are. */
export async function judgeRun(bench: Bench, run: number, rule: Rule = ruleDefaults): Promise<Judged> {
  const { run: kept, tester, readings } = await basisOf(bookOf(bench), run)
  const known = await evidenceAgainst(bench, tester)
  return judgeReduced(reduceList(bench, listOfRun(kept, tester, readings, known)), rule)
}

/** Computes and keeps the results of a run. */
export async function settleRun(bench: Bench, run: number): Promise<Judged> {
  const judged = await judgeRun(bench, run)
  await saveResults(bookOf(bench), { run, outcomes: withoutEvidence(outcomesOf(judged)) }, bench.now())
  return judged
}

/** Reads the book whole, recomputes every result and says what differs. Changes nothing. */
export function checkWholeBook(bench: Bench): Promise<CheckReport> {
  const recompute: Recompute = ({ run, tester, readings, stored }) => {
    const rule = stored.flatMap((o) => o.verdicts)[0]?.rule ?? ruleDefaults
    return outcomesOf(judgeReduced(reduceList(bench, listOfRun(run, tester, readings)), rule))
  }
  return checkBook(bookOf(bench), { recompute })
}
