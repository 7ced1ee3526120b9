import { type BookReading, type Edit, edits, newestRuns, type Part, part, parts, readings, results } from '#book'
import { FaultError } from '#core/fault'
import { type Bench, bookOf } from './bench.ts'
import { type Judged, ruleDefaults } from './measure.ts'
import { type Progress, step, unwatched } from './progress.ts'
import { judgePartOf, runWithTester } from './settle-parts.ts'

/** Results of a run, cut down to the parts that were asked for. */
export interface KeptRun {
  readonly run: number
  readonly judged: Judged
}

export interface KeptFilter {
  /** Tags; left out, every part that fits. */
  readonly tags?: readonly string[]
  readonly lot?: string
}

/** The parts of a book that fit, in the order they came. @throws {FaultError} `not-found` a tag or lot that is not there */
export async function partsOf(bench: Bench, filter: KeptFilter): Promise<readonly Part[]> {
  const book = bookOf(bench)
  if (filter.tags !== undefined) return Promise.all(filter.tags.map((tag) => part(book, tag)))
  const found = await parts(book, filter.lot === undefined ? {} : { lot: filter.lot })
  if (found.length > 0 || filter.lot === undefined) return found
  throw new FaultError({ code: 'not-found', what: 'lot with parts in the book', name: filter.lot, near: [] })
}

/** What the newest run of each part gave, computed from its readings as they now are. */
export async function keptResults(
  bench: Bench,
  filter: KeptFilter,
  progress: Progress = unwatched,
): Promise<readonly KeptRun[]> {
  const tags = (await partsOf(bench, filter)).map((p) => p.tag)
  const byRun = new Map<number, string[]>()
  for (const [tag, run] of await newestRuns(bookOf(bench), tags)) {
    const own = byRun.get(run)
    if (own === undefined) byRun.set(run, [tag])
    else own.push(tag)
  }
  const kept: KeptRun[] = []
  let done = 0
  for (const [run, own] of [...byRun].sort(([a], [b]) => a - b)) {
    const runOf = await runWithTester(bench, run)
    const judged: Judged[] = []
    for (const tag of own) {
      step(progress, done++, tags.length, 'Computing results')
      judged.push(await judgePartOf(bench, runOf, tag))
      if (done % partsInOneGo === 0) await new Promise((keep) => setImmediate(keep))
    }
    kept.push({ run, judged: together(judged, runOf.tester) })
  }
  return kept
}

/** After so many parts others get their turn. */
const partsInOneGo = 5

/** Results of parts of one run as one. */
const together = (all: readonly Judged[], tester: Judged['tester']): Judged => ({
  tester,
  readings: all.flatMap((one) => one.readings),
  results: all.flatMap((one) => one.results),
  verdicts: all.flatMap((one) => one.verdicts),
  types: Object.assign({}, ...all.map((one) => one.types)),
  notes: [...new Set(all.flatMap((one) => one.notes))],
  rule: all[0]?.rule ?? ruleDefaults,
})

/** One part with its story. */
export interface PartStory {
  readonly part: Part
  readonly edits: readonly Edit[]
  readonly readings: readonly BookReading[]
  readonly kept: readonly KeptRun[]
  /** How many runs hold results of it. */
  readonly runs: number
}

/** All the book knows of one part. @throws {FaultError} `not-found` */
export async function partStory(bench: Bench, tag: string): Promise<PartStory> {
  const book = bookOf(bench)
  return {
    part: await part(book, tag),
    edits: await edits(book, tag),
    readings: await readings(book, { part: tag }),
    kept: await keptResults(bench, { tags: [tag] }),
    runs: new Set((await results(book, { part: tag })).map((r) => r.run)).size,
  }
}
