import { FaultError } from '#core/fault'
import type { Reading } from '#core/tester'
import type { Book } from './book.ts'
import { enter } from './journal.ts'
import { isSame } from './json.ts'
import { type BookReading, noReading, readingsIn, requireReplaceable, requireSound } from './reading.ts'
import { insertReadings } from './reading-rows.ts'
import { requireOpenRun } from './run.ts'
import { requireTime } from './time.ts'
import { type Work, write } from './transaction.ts'

/** A reading with the name its sender gave it, by which it is known when it comes again. */
export interface Taking {
  readonly client: string
  readonly run: number
  readonly reading: Reading
  /** Number of the reading it corrects; left out, it corrects one of the same step where there is one. */
  readonly replaces?: number
}

export interface Taken {
  readonly reading: BookReading
  /** True where the same was taken before: nothing was added. */
  readonly isRepeat: boolean
  /** Number of the edit in the journal, where it corrected another reading. */
  readonly edit?: number
}

/**
 * Takes a reading once, however often it is sent: the same `client` a second time gives what was taken the first time.
 * Where the run has a reading of the same part, kind, range and point, the new one corrects it. Durable when the promise
 * is kept.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `usage` the run has ended, the reading was corrected already, `client` was used for another
 */
export const takeReading = (book: Book, given: Taking, at: string): Promise<Taken> =>
  write(book, async (work) => {
    requireTime(at)
    requireSound([given.reading])
    const before = await takenBefore(work, given)
    if (before !== undefined) return { reading: before, isRepeat: true }
    const replaces = given.replaces ?? sameStep(work, given)
    if (given.replaces === undefined) await requireOpenRun(work.db, given.run)
    if (replaces !== undefined && (await requireReplaceable(work, replaces)) !== given.run) throw noReading(replaces)
    return { ...enterReading(work, given, replaces, at), isRepeat: false }
  })

/** Adds the reading, its sender's name for it, and the edit where it corrects another. */
function enterReading(work: Work, given: Taking, replaces: number | undefined, at: string): Omit<Taken, 'isRepeat'> {
  const { client, run, reading } = given
  const id = insertReadings(work.driver, run, [reading], at, replaces ?? null)
  work.driver.prepare('INSERT INTO taken (client, reading) VALUES (?, ?)').run(client, id)
  const kept = { id, run, reading, enteredAt: at }
  if (replaces === undefined) return { reading: kept }
  const change = { kind: 'reading', run, part: reading.part, reading: id, replaced: replaces } as const
  const say = `${reading.reads} of ${reading.part} corrected to ${reading.seen}.`
  return { reading: { ...kept, replaces }, edit: enter(work, { change, say }, at) }
}

async function takenBefore(work: Work, { client, reading }: Taking): Promise<BookReading | undefined> {
  const id = work.driver.prepare<[string], number>('SELECT reading FROM taken WHERE client = ?').pluck().get(client)
  if (id === undefined) return undefined
  const [kept] = await readingsIn(work, { id })
  if (kept === undefined) throw noReading(id)
  const { at: _then, ...was } = kept.reading
  const { at: _now, ...is } = reading
  if (isSame(was, is)) return kept
  throw new FaultError({
    code: 'usage',
    problem: `The name "${client}" was used for another reading (number ${id})`,
    mend: 'Give each reading a name of its own.',
  })
}

/** The reading of the same step that counts now. */
function sameStep({ driver }: Work, { run, reading }: Taking): number | undefined {
  const { part, reads, point, range } = reading
  return driver
    .prepare<[number, string, string, number, string | null], number>(
      `SELECT reading.id FROM reading JOIN part ON part.id = reading.part
       WHERE run = ? AND part.tag = ? AND reads = ? AND point = ? AND range IS ?
         AND NOT EXISTS (SELECT 1 FROM reading AS newer WHERE newer.replaces = reading.id)
       ORDER BY reading.id DESC LIMIT 1`,
    )
    .pluck()
    .get(run, part, reads, point, range ?? null)
}
