import type { Reading } from '#core/tester'
import type { Book } from './book.ts'
import { lotNumber } from './lot.ts'
import { newestSaver, type Summary } from './newest.ts'
import type { Part } from './part.ts'
import { insertReadings } from './reading-rows.ts'
import { insertRun, type RunStart } from './run.ts'
import { requireTime } from './time.ts'
import { write } from './transaction.ts'

/** Invented parts with their readings and what those come to. */
export interface Filling extends RunStart {
  readonly parts: readonly (Omit<Part, 'at'> & {
    readonly readings: readonly Reading[]
    readonly summary: Summary
  })[]
}

/**
 * Puts invented parts, with their readings, into the book as one finished run, in one transaction. Their results are
 * kept in short only; the whole of them is computed when someone looks.
 *
 * @param at date and time now, ISO
 * @returns number of the run
 */
export const fillRun = (book: Book, { parts, ...start }: Filling, at: string): Promise<number> =>
  write(book, async ({ db, driver }) => {
    requireTime(at)
    const run = await insertRun(db, start, { state: 'finished', startedAt: at, finishedAt: at })
    const add = driver.prepare(
      'INSERT INTO part (tag, type, lot, place, note, status, used_in, at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    )
    const saveNewest = newestSaver(driver)
    const numbers: number[] = []
    const lots = new Map<string, number>()
    for (const lot of new Set(parts.map((one) => one.lot)))
      if (lot !== undefined) lots.set(lot, await lotNumber(db, lot, at))
    for (const { tag, type, lot, place, note, status, usedIn } of parts) {
      const lotId = lot === undefined ? null : lots.get(lot)
      const row = [tag, type ?? null, lotId, place ?? null, note ?? null, status, usedIn ?? null, at]
      numbers.push(Number(add.run(...row).lastInsertRowid))
    }
    insertReadings(
      driver,
      run,
      parts.flatMap((one) => one.readings),
      at,
    )
    for (const [i, { summary }] of parts.entries()) saveNewest(run, numbers[i]!, summary)
    return run
  })
