import { bookSummary, editPart, saveSetting, setting } from '#book'
import { demo, demoJob } from '#catalog'
import { FaultError } from '#core/fault'
import { type Bench, bookOf, testerNamed } from './bench.ts'
import { addJobText } from './jobs.ts'
import { type Kept, keepReadings } from './keep.ts'

/** Name of the setting that marks a book as the demo. */
const mark = 'demo'

/** Whether a book holds the demo. */
export const isDemo = async (bench: Bench): Promise<boolean> => (await setting(bookOf(bench), mark)) === demo.title

/**
 * Puts the demo lot and its job into an empty book and computes its results. Its dates are those of the story.
 *
 * @throws {FaultError} `usage` where the book has parts or runs of its own
 */
export async function putDemo(bench: Bench): Promise<Kept & { readonly lot: string }> {
  const { parts, runs } = await bookSummary(bookOf(bench))
  if (parts > 0 || runs > 0)
    throw new FaultError({
      code: 'usage',
      problem: 'The demo goes into an empty book, and this one has parts or runs',
      mend: 'Make a book of its own for it: germane demo --book demo.germane.',
    })
  const then = { ...bench, now: () => demo.at }
  const known = testerNamed(then, demo.tester)
  const kept = await keepReadings(then, {
    text: demo.readings,
    file: `${demo.lot}.csv`,
    tester: known.tester,
    known,
    lot: demo.lot,
    note: demo.title,
  })
  for (const { part } of kept.judged.results) {
    const place = demo.places[part]
    const note = demo.notes[part]
    const changes = { ...(place === undefined ? {} : { place }), ...(note === undefined ? {} : { note }) }
    await editPart(bookOf(bench), part, changes, demo.at)
  }
  await addJobText(then, demoJob, 'the job of the demo')
  await saveSetting(bookOf(bench), mark, demo.title)
  return { ...kept, lot: demo.lot }
}
