import { FaultError } from '#core/fault'
import type { Book } from './book.ts'
import { enter } from './journal.ts'
import { withoutNulls } from './json.ts'
import { partNumber } from './part.ts'
import { requireTime } from './time.ts'
import { read, write } from './transaction.ts'
import { setUpkeepRemoved, versionedTester } from './upkeep.ts'

/** A stable part by which a tester is watched. */
export interface NewCheckStandard {
  /** Id of the tester. */
  readonly tester: string
  /** Tag of the part. */
  readonly part: string
  /** Letter symbol that is followed: h_FE, I_CEO. */
  readonly symbol: string
  /** Bounds the reading should keep, SI units. */
  readonly low?: number
  readonly high?: number
}

export interface BookCheckStandard extends NewCheckStandard {
  readonly id: number
  readonly at: string
}

/**
 * Names a part of the book as a check standard of a tester, as an edit of the journal.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` no such tester or part; `usage` where it is one already; `bad-input` for bounds
 */
export const addCheckStandard = (
  book: Book,
  given: NewCheckStandard,
  at: string,
): Promise<{ readonly id: number; readonly edit: number }> =>
  write(book, async (work) => {
    requireTime(at)
    const { tester, part, symbol, low, high } = given
    const name = await versionedTester(work, tester)
    const number = await partNumber(work.db, part)
    requireBounds(given)
    const there = work.driver.prepare(
      'SELECT 1 FROM check_standard WHERE tester = ? AND part = ? AND symbol = ? AND removed = 0',
    )
    if (there.get(tester, number, symbol) !== undefined)
      throw new FaultError({
        code: 'usage',
        problem: `${symbol} of ${part} is a check standard of ${name} already`,
        mend: 'Take it away first where its bounds are to change.',
      })
    const add = work.driver.prepare(
      'INSERT INTO check_standard (tester, part, symbol, low, high, at) VALUES (?, ?, ?, ?, ?, ?)',
    )
    const id = Number(add.run(tester, number, symbol, low ?? null, high ?? null, at).lastInsertRowid)
    const change = { kind: 'upkeep', what: 'check_standard', row: id, tester, removed: false } as const
    return { id, edit: enter(work, { change, say: `${part} named as a check standard of ${name}.` }, at) }
  })

function requireBounds({ low, high }: NewCheckStandard): void {
  if (low === undefined || high === undefined || low < high) return
  throw new FaultError({
    code: 'bad-input',
    place: { field: 'low' },
    value: String(low),
    problem: `is not below the upper bound of ${high}`,
    mend: 'Give the lower bound first.',
  })
}

/** Takes a check standard away, as an edit of the journal; its readings stay where they are. */
export const removeCheckStandard = (
  book: Book,
  id: number,
  at: string,
): Promise<{ readonly tester: string; readonly edit: number }> =>
  write(book, async (work) => {
    const tester = setUpkeepRemoved(work, 'check_standard', id, true)
    const change = { kind: 'upkeep', what: 'check_standard', row: id, tester, removed: true } as const
    return { tester, edit: enter(work, { change, say: `A check standard of ${tester} taken away.` }, at) }
  })

interface Row {
  readonly id: number
  readonly tester: string
  readonly part: string
  readonly symbol: string
  readonly low: number | null
  readonly high: number | null
  readonly at: string
}

/** The check standards of a tester, in the order they were named. */
export const checkStandards = (book: Book, tester: string): Promise<BookCheckStandard[]> =>
  read(book, async ({ driver }) =>
    driver
      .prepare<[string], Row>(
        `SELECT check_standard.id, tester, part.tag AS part, symbol, low, high, check_standard.at AS at
         FROM check_standard JOIN part ON part.id = check_standard.part
         WHERE tester = ? AND removed = 0 ORDER BY check_standard.id`,
      )
      .all(tester)
      .map((row) => withoutNulls(row) as BookCheckStandard),
  )

/** A part that was read often on a tester, and so may serve as its check standard. */
export interface OftenRead {
  readonly part: string
  /** In so many runs. */
  readonly runs: number
}

/** Parts read on a tester in at least so many runs, the most often read first. */
export const oftenRead = (book: Book, tester: string, least = 3, most = 50): Promise<OftenRead[]> =>
  read(book, async ({ driver }) =>
    driver
      .prepare<[string, number, number], OftenRead>(
        `SELECT part.tag AS part, runs FROM part JOIN (
           SELECT part AS id, count(*) AS runs FROM result WHERE run IN (
             SELECT run.id FROM run JOIN tester_version ON tester_version.id = run.tester_version WHERE tester = ?)
           GROUP BY part HAVING count(*) >= ? ORDER BY count(*) DESC LIMIT ?) AS often ON often.id = part.id
         ORDER BY runs DESC, part.tag`,
      )
      .all(tester, least, most),
  )
