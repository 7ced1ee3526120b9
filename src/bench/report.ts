import type { PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { type CurvePicture, type ReportInput, reportHtml, reportModel, type Workings } from '#report'
import type { Bench } from './bench.ts'
import { curvePictures } from './curve-pictures.ts'
import { type KeptFilter, keptResults } from './kept.ts'
import type { Judged } from './measure.ts'
import { type Progress, unwatched } from './progress.ts'

export interface ReportWishes {
  readonly title?: string
  readonly notes?: readonly string[]
  readonly workings?: Workings
  readonly sections?: readonly string[]
  readonly curves?: readonly CurvePicture[]
}

/** A report of readings that were just judged. */
export function reportOfJudged(bench: Bench, judged: Judged, wishes: ReportWishes): string {
  const input: ReportInput = {
    title: wishes.title ?? defaultTitle(judged),
    printedAt: bench.now(),
    tester: judged.tester,
    partTypes: judged.types as Record<string, PartType>,
    results: judged.results,
    verdicts: judged.verdicts,
    notes: [...(wishes.notes ?? []), ...judged.notes],
    readings: judged.readings,
    ...(wishes.curves === undefined ? {} : { curves: wishes.curves }),
    ...(wishes.workings === undefined ? {} : { workings: wishes.workings }),
    ...(wishes.sections === undefined ? {} : { sections: wishes.sections }),
  }
  return reportHtml(reportModel(input))
}

/** A report of parts in the book, from their newest runs. @throws {FaultError} nothing was read of them yet */
export async function reportOfKept(
  bench: Bench,
  filter: KeptFilter,
  wishes: ReportWishes,
  progress: Progress = unwatched,
): Promise<string> {
  const kept = await keptResults(bench, filter, progress)
  const first = kept.at(-1)
  if (first === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'Nothing was read of these parts yet',
      mend: 'Run them first with "germane run", or take a file of readings into the book.',
    })
  const tags = new Set(kept.flatMap((k) => k.judged.results.map((r) => r.part)))
  const curves = await curvePictures(bench, [...tags])
  const others = kept.filter((k) => k.judged.tester.id !== first.judged.tester.id)
  return reportOfJudged(
    bench,
    {
      ...first.judged,
      readings: kept.flatMap((k) => k.judged.readings),
      results: kept.flatMap((k) => k.judged.results),
      verdicts: kept.flatMap((k) => k.judged.verdicts),
      types: Object.assign({}, ...kept.map((k) => k.judged.types)),
      notes: [
        ...new Set(kept.flatMap((k) => k.judged.notes)),
        ...others.map((k) => `Run ${k.run} was taken on ${k.judged.tester.name}.`),
      ],
    },
    { ...wishes, curves },
  )
}

function defaultTitle(judged: Judged): string {
  const tags = judged.results.map((r) => r.part)
  return tags.length === 1 ? `Part ${tags[0]}` : `${tags.length} parts`
}
