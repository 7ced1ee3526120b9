import { type BookReading, type Edit, edits, type Part, part, parts, readings, results } from '#book'
import { FaultError } from '#core/fault'
import { type Bench, bookOf } from './bench.ts'
import { judgeRun } from './keep.ts'
import type { Judged } from './measure.ts'

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
export async function keptResults(bench: Bench, filter: KeptFilter): Promise<readonly KeptRun[]> {
  const wanted = new Set((await partsOf(bench, filter)).map((p) => p.tag))
  const newest = new Map<string, number>()
  for (const r of await readings(bookOf(bench), { current: true }))
    if (wanted.has(r.reading.part)) newest.set(r.reading.part, Math.max(r.run, newest.get(r.reading.part) ?? 0))
  const kept: KeptRun[] = []
  for (const run of [...new Set(newest.values())].sort((a, b) => a - b)) {
    const judged = await judgeRun(bench, run)
    const own = (tag: string): boolean => newest.get(tag) === run
    kept.push({
      run,
      judged: {
        ...judged,
        readings: judged.readings.filter((r) => own(r.part)),
        results: judged.results.filter((r) => own(r.part)),
        verdicts: judged.verdicts.filter((v) => own(v.part)),
      },
    })
  }
  return kept
}

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
