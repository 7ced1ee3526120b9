import { type Outcome, type Run, readings, run, saveResults, tester } from '#book'
import type { Against } from '#core/reduce'
import type { Tester } from '#core/tester'
import { type Bench, bookOf } from './bench.ts'
import { evidenceAgainst, withoutEvidence } from './evidence.ts'
import { listOfRun, outcomesOf } from './keep.ts'
import { type Judged, judgeReduced, reduceList } from './measure.ts'
import { patiently } from './patience.ts'
import { type Progress, step, unwatched } from './progress.ts'

/** Results of parts of a run, with what the reader should know. */
export interface Settled {
  readonly outcomes: readonly Outcome[]
  readonly notes: readonly string[]
}

/** How many parts are kept in one step: a step is short enough for others to write in between. */
const partsAtOnce = 50

/**
 * Computes and keeps the results of parts of a run, all of them where none is named; the run stays as it is. Between
 * parts others get their turn.
 *
 * @throws {FaultError} `not-found`; what can't be reduced
 */
export async function settleParts(
  bench: Bench,
  id: number,
  tags?: readonly string[],
  progress: Progress = unwatched,
): Promise<Settled> {
  const runOf = await runWithTester(bench, id)
  const list = tags ?? (await tagsOf(bench, id))
  const outcomes: Outcome[] = []
  const notes = new Set<string>()
  for (let at = 0; at < list.length; at += partsAtOnce) {
    const some: Outcome[] = []
    const upTo = new Map<string, number>()
    for (const [i, tag] of list.slice(at, at + partsAtOnce).entries()) {
      step(progress, at + i, list.length, 'Computing results')
      const { lastReading, ...judged } = await judgePartOf(bench, runOf, tag)
      upTo.set(tag, lastReading)
      some.push(...outcomesOf(judged))
      for (const note of judged.notes) notes.add(note)
      if (i % 5 === 4) await new Promise((keep) => setImmediate(keep))
    }
    await patiently(() => saveResults(bookOf(bench), { run: id, outcomes: withoutEvidence(some), upTo }, bench.now()))
    outcomes.push(...some)
  }
  return { outcomes, notes: [...notes] }
}

export interface RunWithTester {
  readonly run: Run
  readonly tester: Tester
  /** What the book knows against readings on it beside the description. */
  readonly against?: Against
}

/** A run and the tester it was taken with, in that version, with what is known against it. */
export async function runWithTester(bench: Bench, id: number): Promise<RunWithTester> {
  const book = bookOf(bench)
  const found = await run(book, id)
  const version = (await tester(book, found.tester, found.testerVersion)).tester
  return { run: found, tester: version, ...(await evidenceAgainst(bench, version)) }
}

/** What one part came to, with the highest number of the readings it comes from. */
export interface JudgedPart extends Judged {
  readonly lastReading: number
}

/** Computes what one part came to in a run, from its readings as they now are. Keeps nothing. */
export async function judgePartOf(
  bench: Bench,
  { run, tester, ...known }: RunWithTester,
  tag: string,
): Promise<JudgedPart> {
  const list = await readings(bookOf(bench), { run: run.id, part: tag, current: true })
  const given = listOfRun(
    run,
    tester,
    list.map((one) => one.reading),
    known,
  )
  return {
    ...judgeReduced(reduceList(bench, given)),
    lastReading: list.reduce((last, one) => Math.max(last, one.id), 0),
  }
}

async function tagsOf(bench: Bench, id: number): Promise<readonly string[]> {
  const all = await readings(bookOf(bench), { run: id, current: true })
  return [...new Set(all.map((one) => one.reading.part))]
}
