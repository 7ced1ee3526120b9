import { FaultError } from '#core/fault'
import type { Book } from './book.ts'
import { enter } from './journal.ts'
import { fromJson, toJson, withoutNulls } from './json.ts'
import { requireTime } from './time.ts'
import { read, write } from './transaction.ts'
import { setUpkeepRemoved, versionedTester } from './upkeep.ts'

/** One part of a tester as it was measured, SI units, with the standard uncertainty of that. */
export interface FoundEntry {
  /** Name of the part in the empty sheet: `shunt 10 mA`. */
  readonly part: string
  readonly value: number
  readonly u: number
}

/** Parts of a tester as they were measured on a day. */
export interface NewFoundRecord {
  /** Id of the tester. */
  readonly tester: string
  /** Day of the measuring, ISO. */
  readonly day: string
  readonly note?: string
  readonly parts: readonly FoundEntry[]
}

export interface FoundRecord extends NewFoundRecord {
  readonly id: number
  /** When it came into the book. */
  readonly at: string
}

/**
 * Keeps what was measured of a tester, as an edit of the journal.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` no such tester in the book; `bad-input` for a day that is none, or no part
 */
export const addFoundRecord = (
  book: Book,
  given: NewFoundRecord,
  at: string,
): Promise<{ readonly id: number; readonly edit: number }> =>
  write(book, async (work) => {
    requireTime(at)
    const { tester, day, note, parts } = given
    const name = await versionedTester(work, tester)
    requireSound(given)
    const add = work.driver.prepare('INSERT INTO found (tester, day, note, parts, at) VALUES (?, ?, ?, ?, ?)')
    const id = Number(add.run(tester, day, note ?? null, toJson(parts, 'parts'), at).lastInsertRowid)
    const change = { kind: 'upkeep', what: 'found', row: id, tester, removed: false } as const
    const count = parts.length === 1 ? '1 part' : `${parts.length} parts`
    return { id, edit: enter(work, { change, say: `${name} as found on ${day}: ${count} kept.` }, at) }
  })

/** Takes a record away, as an edit of the journal; it stays in the book, so that it can come back. */
export const removeFoundRecord = (
  book: Book,
  id: number,
  at: string,
): Promise<{ readonly tester: string; readonly edit: number }> =>
  write(book, async (work) => {
    const tester = setUpkeepRemoved(work, 'found', id, true)
    const change = { kind: 'upkeep', what: 'found', row: id, tester, removed: true } as const
    return { tester, edit: enter(work, { change, say: `What was found of ${tester} taken away.` }, at) }
  })

function requireSound({ day, parts }: NewFoundRecord): void {
  const wrong = (field: string, value: string, problem: string, mend: string): never => {
    throw new FaultError({ code: 'bad-input', place: { field }, value, problem, mend })
  }
  if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || !Number.isFinite(Date.parse(day)))
    wrong('day', day, 'is not a date', 'Write it as 2024-05-12.')
  if (parts.length === 0) wrong('parts', 'nothing', 'is no measured part', 'Measure at least one.')
  for (const p of parts)
    if (!Number.isFinite(p.value) || !(p.u >= 0))
      wrong(p.part, `${p.value} +- ${p.u}`, 'is no measured value', 'Give a value and its standard uncertainty.')
}

interface Row extends Omit<FoundRecord, 'parts' | 'note'> {
  readonly note: string | null
  readonly parts: string
}

/** What was measured of a tester, newest first; without what was taken away. */
export const foundRecords = (book: Book, tester: string): Promise<FoundRecord[]> =>
  read(book, async ({ driver }) =>
    driver
      .prepare<[string], Row>(
        'SELECT id, tester, day, note, parts, at FROM found WHERE tester = ? AND removed = 0 ORDER BY day DESC, id DESC',
      )
      .all(tester)
      .map(({ parts, ...row }) => ({ ...withoutNulls(row), parts: fromJson(parts) })),
  )
