import { FaultError } from '#core/fault'
import type { Decision, Job, JobPosition, JobState, Power } from '#core/job'
import { nearNames } from '#core/text'
import type { Book } from './book.ts'
import type { JobRow, PositionRow } from './job-tables.ts'
import { withoutNulls } from './json.ts'
import { partNumber } from './part.ts'
import { read, type Work } from './transaction.ts'

/** Jobs of a book that were not taken away: those in hand first, then by when they came, newest first. */
export const jobs = (book: Book): Promise<Job[]> => read(book, async (work) => jobsIn(work))

/** A job by its number, or by its name. @throws {FaultError} `not-found` with near names */
export const job = (book: Book, which: number | string): Promise<Job> => read(book, async (work) => jobIn(work, which))

/** The same inside a transaction. */
export function jobIn(work: Work, which: number | string): Job {
  const row = work.driver
    .prepare<[number | string], JobRow>(
      `SELECT * FROM job WHERE removed = 0 AND ${typeof which === 'number' ? 'id' : 'name'} = ?`,
    )
    .get(which)
  if (row === undefined) throw noJob(work, which)
  return jobOfRow(work, row)
}

const jobsIn = (work: Work): Job[] =>
  work.driver
    .prepare<[], JobRow>("SELECT * FROM job WHERE removed = 0 ORDER BY state = 'done', id DESC")
    .all()
    .map((row) => jobOfRow(work, row))

function noJob({ driver }: Work, which: number | string): FaultError {
  const names = driver.prepare<[], string>('SELECT name FROM job WHERE removed = 0').pluck().all()
  return new FaultError({
    code: 'not-found',
    what: 'job in the book',
    name: String(which),
    near: nearNames(String(which), names),
  })
}

type Positioned = PositionRow & { readonly foundTag: string | null; readonly fittedTag: string | null }

const selectPositions = `SELECT position.*, a.tag AS foundTag, b.tag AS fittedTag FROM position
  LEFT JOIN part AS a ON a.id = position.found_part LEFT JOIN part AS b ON b.id = position.fitted_part
  WHERE position.job = ? ORDER BY position.id`

const selectReserved = `SELECT reserved.position, part.tag FROM reserved JOIN part ON part.id = reserved.part
  WHERE reserved.job = ? ORDER BY part.id`

function jobOfRow({ driver }: Work, row: JobRow): Job {
  const aside = driver.prepare<[number], { position: number | null; tag: string }>(selectReserved).all(row.id)
  const tagsFor = (position: number | null): string[] =>
    aside.filter((one) => one.position === position).map((one) => one.tag)
  const { id, name, equipment, power, state, note, begun_on, finished_on, at } = row
  return {
    ...withoutNulls({ id, name, equipment, power: power as Power | null, state: state as JobState, note, at }),
    ...withoutNulls({ begunOn: begun_on, finishedOn: finished_on }),
    positions: driver
      .prepare<[number], Positioned>(selectPositions)
      .all(id)
      .map((one) => positionOfRow(one, tagsFor(one.id))),
    reserved: tagsFor(null),
  }
}

function positionOfRow(row: Positioned, reserved: readonly string[]): JobPosition {
  const { ref, type, role, circuit, found, foundTag, decision, fitted, fittedTag, done, note } = row
  return {
    ...withoutNulls({ ref, type, role, circuit, found, foundPart: foundTag, decision: decision as Decision }),
    ...withoutNulls({ fitted, fittedPart: fittedTag, done: done === 1, note }),
    reserved,
  }
}

/** Where a part has to do with a job. */
export interface PartPlace {
  readonly job: number
  readonly name: string
  readonly ref?: string
  readonly as: 'found' | 'reserved' | 'fitted'
}

/** The jobs and positions a part has to do with. @throws {FaultError} `not-found` */
export const placesOfPart = (book: Book, tag: string): Promise<PartPlace[]> =>
  read(book, async ({ db, driver }) => {
    const part = await partNumber(db, tag)
    return driver.prepare<[{ part: number }], PlaceRow>(selectPlaces).all({ part }).map(withoutNulls)
  })

interface PlaceRow {
  job: number
  name: string
  ref: string | null
  as: PartPlace['as']
}

const ofPosition = (as: PartPlace['as']): string =>
  `SELECT job.id AS job, job.name, position.ref, '${as}' AS "as" FROM position JOIN job ON job.id = position.job
   WHERE job.removed = 0 AND position.${as}_part = @part`

const selectPlaces = `${ofPosition('found')} UNION ALL ${ofPosition('fitted')} UNION ALL
  SELECT job.id, job.name, position.ref, 'reserved' FROM reserved JOIN job ON job.id = reserved.job
  LEFT JOIN position ON position.id = reserved.position WHERE reserved.part = @part`
