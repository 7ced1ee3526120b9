import { type Fault, FaultError } from '#core/fault'
import { type Reading, type ReadingKind, type Shown, tagProblem } from '#core/tester'
import type { Book } from './book.ts'
import { fromJson, withoutNulls } from './json.ts'
import { insertReadings } from './reading-rows.ts'
import { requireOpenRun } from './run.ts'
import type { ReadingRow } from './tables.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** A reading with its place in the book. */
export interface BookReading {
  readonly id: number
  readonly run: number
  readonly reading: Reading
  /** Number of the reading that this one corrects. */
  readonly replaces?: number
  /** When the book took it; `reading.at` is when it was seen. */
  readonly enteredAt: string
}

export interface ReadingFilter {
  /** Tag of a part. */
  readonly part?: string
  readonly run?: number
  /** Leaves out readings that a correction has replaced. */
  readonly current?: boolean
}

/**
 * Adds one reading to an open run. When the promise is kept, the reading is on the disk; its part is made where the
 * book does not have it yet. Results computed for this part of this run are dropped: they are out of date.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` no such run; `usage` the run has ended; `out-of-domain` a number that is none
 */
export async function addReading(
  book: Book,
  given: { readonly run: number; readonly reading: Reading },
  at: string,
): Promise<BookReading> {
  const [added] = await addReadings(book, { run: given.run, readings: [given.reading] }, at)
  return added as BookReading
}

/** Adds several readings to an open run: all of them or none. See `addReading`. */
export const addReadings = (
  book: Book,
  given: { readonly run: number; readonly readings: readonly Reading[] },
  at: string,
): Promise<BookReading[]> =>
  write(book, async ({ db, driver }) => {
    requireTime(at)
    requireSound(given.readings)
    await requireOpenRun(db, given.run)
    const first = insertReadings(driver, given.run, given.readings, at)
    return given.readings.map((reading, i) => ({ id: first + i, run: given.run, reading, enteredAt: at }))
  })

/**
 * Corrects a reading: the new one takes its place, the old one stays in the book. To correct a correction, name the
 * correction.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` no such reading; `usage` it has been corrected already
 */
export const correctReading = (
  book: Book,
  given: { readonly replaces: number; readonly reading: Reading },
  at: string,
): Promise<BookReading> =>
  write(book, async ({ db, driver }) => {
    requireTime(at)
    requireSound([given.reading])
    const { replaces, reading } = given
    const run = await requireReplaceable({ db }, replaces)
    const id = insertReadings(driver, run, [reading], at, replaces)
    return { id, run, reading, replaces, enteredAt: at }
  })

/**
 * The run of a reading that may be corrected.
 *
 * @throws {FaultError} `not-found` no such reading; `usage` it has been corrected already
 */
export async function requireReplaceable({ db }: Pick<Work, 'db'>, replaces: number): Promise<number> {
  const old = await db.selectFrom('reading').select('run').where('id', '=', replaces).executeTakeFirst()
  if (old === undefined) throw noReading(replaces)
  const newer = await db.selectFrom('reading').select('id').where('replaces', '=', replaces).executeTakeFirst()
  if (newer === undefined) return old.run
  throw new FaultError({
    code: 'usage',
    problem: `Reading ${replaces} has been corrected by reading ${newer.id} already`,
    mend: `Correct reading ${newer.id} instead.`,
  })
}

/**
 * A reading by its number.
 *
 * @throws {FaultError} `not-found`
 */
export const reading = (book: Book, id: number): Promise<BookReading> =>
  read(book, async (work) => {
    const [found] = await readingsIn(work, { id })
    if (found === undefined) throw noReading(id)
    return found
  })

/** Readings in the order in which they were entered. */
export const readings = (book: Book, filter: ReadingFilter = {}): Promise<BookReading[]> =>
  read(book, (work) => readingsIn(work, filter))

/** The same inside a transaction. */
export async function readingsIn(
  { db }: Work,
  filter: ReadingFilter & { readonly id?: number },
): Promise<BookReading[]> {
  let query = db
    .selectFrom('reading')
    .innerJoin('part', 'part.id', 'reading.part')
    .selectAll('reading')
    .select('part.tag')
    .orderBy('reading.id')
  if (filter.id !== undefined) query = query.where('reading.id', '=', filter.id)
  if (filter.part !== undefined) query = query.where('part.tag', '=', filter.part)
  if (filter.run !== undefined) query = query.where('reading.run', '=', filter.run)
  if (filter.current === true)
    query = query.where((is) =>
      is.not(
        is.exists(is.selectFrom('reading as newer').select('newer.id').whereRef('newer.replaces', '=', 'reading.id')),
      ),
    )
  return (await query.execute()).map(readingOfRow)
}

export const noReading = (id: number): FaultError =>
  new FaultError({ code: 'not-found', what: 'reading in the book', name: String(id), near: [] })

function readingOfRow(row: ReadingRow & { readonly tag: string }): BookReading {
  const { id, run, type, seen, range, scale, point, at, note, replaces } = row
  const reading: Reading = {
    part: row.tag,
    ...withoutNulls({ type }),
    reads: row.reads as ReadingKind,
    shown: fromJson<Shown>(row.shown),
    seen,
    ...withoutNulls({ range, scale }),
    point,
    ...withoutNulls({ supplyV: row.supply, ambientC: row.ambient, ambientU: row.ambient_u, at, note }),
  }
  return { id, run, reading, ...withoutNulls({ replaces }), enteredAt: row.entered_at }
}

/**
 * A last look before readings are kept for ever: a tag, a whole number for the point, no number that is none.
 *
 * @throws {FaultError} `bad-input` for all that is wrong, with the number of the reading, counted from 1
 */
export function requireSound(given: readonly Reading[]): void {
  const faults = given.flatMap((reading, i) => wrongWith(reading, i + 1))
  if (faults.length > 0) throw new FaultError(faults)
}

function wrongWith(reading: Reading, count: number): Fault[] {
  const { part, point, supplyV, ambientC, ambientU, shown } = reading
  const faults: Fault[] = []
  const wrong = (field: string, value: unknown, problem: string, mend: string): void => {
    faults.push({
      code: 'bad-input',
      place: { field: `reading ${count}, ${field}` },
      value: String(value),
      problem,
      mend,
    })
  }
  const bad = tagProblem(part)
  if (bad !== undefined) wrong('part', part, bad.problem, bad.mend)
  if (!Number.isSafeInteger(point)) wrong('point', point, 'is not a whole number', 'Count the points from 1.')
  const seen = shown.kind === 'deflection' ? shown.divisions : shown.kind === 'value' ? shown.value : 0
  const numbers = { shown: seen, supply: supplyV, ambient: ambientC, 'ambient uncertainty': ambientU }
  for (const [field, value] of Object.entries(numbers))
    if (value !== undefined && !Number.isFinite(value)) wrong(field, value, 'is not a number', 'Write what was seen.')
  if (ambientU !== undefined && ambientU < 0) wrong('ambient uncertainty', ambientU, 'is below 0', 'Give its size.')
  return faults
}
