import { rmSync } from 'node:fs'
import { closeBook, createBook } from '#book'
import { demo } from '#catalog'
import { FaultError } from '#core/fault'
import { type Bench, layBench, onBench } from './bench.ts'
import type { Kept } from './keep.ts'
import { isDemo, putDemo } from './put-demo.ts'

/** Makes the demo book under a name that is free, and computes its results. Its dates are those of the story. */
export async function makeDemo(file: string): Promise<{ bench: Bench; kept: Kept }> {
  await closeBook(await createBook(file, demo.at))
  const bench = await layBench({ bookFile: file, now: () => demo.at })
  const { run, judged } = await putDemo(bench)
  return { bench, kept: { run, judged } }
}

/** Removes a demo book made before. @throws {FaultError} where the file is anything else: it is left as it is */
export async function dropOldDemo(file: string): Promise<void> {
  const isOne = await onBench({ bookFile: file, now: () => demo.at }, isDemo)
  if (!isOne)
    throw new FaultError({
      code: 'book',
      file,
      problem: 'is a book of your own, not a demo',
      mend: 'Name another file for the demo with --book.',
    })
  for (const end of ['', '-wal', '-shm']) rmSync(`${file}${end}`, { force: true })
}
