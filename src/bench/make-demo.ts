import { existsSync, rmSync } from 'node:fs'
import { closeBook, createBook } from '#book'
import { demo } from '#catalog'
import { FaultError } from '#core/fault'
import { onBench } from './bench.ts'
import { judgeRun } from './keep.ts'
import { keptResults } from './kept.ts'
import type { Judged } from './measure.ts'
import { isDemo, putDemo } from './put-demo.ts'

/** The demo book, and what its lot came to. */
export interface Demo {
  readonly judged: Judged
  /** False where the book was there already: what was entered into it is kept. */
  readonly isNew: boolean
}

/**
 * Makes the demo book where there is none; its dates are those of the story. A demo book that is there is kept as it is.
 *
 * @param again makes it anew: what was entered into the old one is lost
 * @throws {FaultError} `book` where the file is no demo book: it is left as it is
 */
export async function makeDemo(file: string, again = false): Promise<Demo> {
  const isThere = existsSync(file)
  if (isThere) await requireDemo(file)
  if (isThere && !again) return { judged: await demoLot(file), isNew: false }
  if (isThere) for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true })
  await closeBook(await createBook(file, demo.at))
  const { judged } = await onBench({ bookFile: file, now: () => demo.at }, putDemo)
  return { judged, isNew: true }
}

/** The lot of the story as it now stands in the book. */
const demoLot = (file: string): Promise<Judged> =>
  onBench({ bookFile: file, now: () => demo.at }, async (bench) => {
    const kept = await keptResults(bench, { lot: demo.lot })
    const first = kept[0]
    return first === undefined ? judgeRun(bench, 1) : first.judged
  })

async function requireDemo(file: string): Promise<void> {
  if (await onBench({ bookFile: file, now: () => demo.at }, isDemo)) return
  throw new FaultError({
    code: 'book',
    file,
    problem: 'is a book of your own, not a demo',
    mend: 'Name another file for the demo with --book.',
  })
}
