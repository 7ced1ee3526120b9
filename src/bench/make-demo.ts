import { rmSync } from 'node:fs'
import { closeBook, createBook, editPart, openBook, saveSetting, setting } from '#book'
import { demo } from '#catalog'
import { FaultError } from '#core/fault'
import { type Bench, bookOf, layBench, testerNamed } from './bench.ts'
import { type Kept, keepReadings } from './keep.ts'

/** Makes the demo book under a name that is free, and computes its results. Its dates are those of the story. */
export async function makeDemo(file: string): Promise<{ bench: Bench; kept: Kept }> {
  await closeBook(await createBook(file, demo.at))
  const bench = await layBench({ bookFile: file, now: () => demo.at })
  const known = testerNamed(bench, demo.tester)
  const kept = await keepReadings(bench, {
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
    await editPart(
      bookOf(bench),
      part,
      { ...(place === undefined ? {} : { place }), ...(note === undefined ? {} : { note }) },
      demo.at,
    )
  }
  await saveSetting(bookOf(bench), mark, demo.title)
  return { bench, kept }
}

const mark = 'demo'

/** Removes a demo book made before. @throws {FaultError} where the file is anything else: it is left as it is */
export async function dropOldDemo(file: string): Promise<void> {
  const book = await openBook(file)
  const isDemo = (await setting(book, mark)) === demo.title
  await closeBook(book)
  if (!isDemo)
    throw new FaultError({
      code: 'book',
      file,
      problem: 'is a book of your own, not a demo',
      mend: 'Name another file for the demo with --book.',
    })
  for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true })
}
