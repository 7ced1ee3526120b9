import type { BookCurve } from '#book'
import { firstView, viewsOf } from '#core/curve'
import { fitKinds } from '#core/fit'
import type { CurvePicture } from '#report'
import { curvePlot } from '#report/curve'
import type { Bench } from './bench.ts'
import { seenCurves } from './curve.ts'
import { curvesOfPart } from './part-curves.ts'

/** Parts whose curves a report looks for, and curves it lays over each other: more cannot be told apart. */
const mostParts = 300
const mostCurves = 12

/** The newest curves of parts for a report, those of one kind over each other; none where there are too many parts. */
export async function curvePictures(bench: Bench, tags: readonly string[]): Promise<readonly CurvePicture[]> {
  if (tags.length > mostParts) return []
  const newest: BookCurve[] = []
  for (const tag of tags) newest.push(...(await curvesOfPart(bench, tag)).slice(-1))
  return fitKinds.flatMap((kind) => pictureOf(newest.filter((k) => k.curve.kind === kind)))
}

function pictureOf(all: readonly BookCurve[]): readonly CurvePicture[] {
  const drawn = all.slice(0, mostCurves).filter((k) => viewsOf(k.curve).length > 0)
  if (drawn.length === 0) return []
  const wish = firstView(drawn[0]!.curve)
  const alike = drawn.filter((k) => viewsOf(k.curve).includes(wish))
  const seen = seenCurves(
    alike.map((k) => k.curve),
    wish,
  )
  const left = all.length - alike.length
  const more = left === 0 ? '' : ` ${left} more ${left === 1 ? 'is' : 'are'} in the book.`
  return [{ plot: curvePlot(seen.curves, seen.view), caption: `${alike.map(aboutText).join('; ')}.${more}` }]
}

/** Whose curve it is, when it was taken and how warm the part was. */
function aboutText({ curve, takenAt, temperatureC }: BookCurve): string {
  const when = takenAt === undefined ? '' : `, taken ${takenAt}`
  return `${curve.name}${when}${temperatureC === undefined ? '' : ` at ${temperatureC} \u00b0C`}`
}
