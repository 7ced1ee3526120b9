import { FaultError } from '#core/fault'
import type { Job, JobSaid, NewJob } from '#core/job'
import type { Book } from './book.ts'
import { jobIn } from './job.ts'
import { changeJob, type Doing, type JobEdited, noted, positionNumber, relabel } from './job-change.ts'
import { jobReserving, placeName, releaseIn, reserveIn } from './job-parts.ts'
import { fieldsSay } from './job-say.ts'
import { putPosition } from './position-edit.ts'
import { requireTime } from './time.ts'
import { type Work, write } from './transaction.ts'

/** What to change of a job; null takes a value away. */
export type JobChanges = { readonly [K in keyof JobSaid]?: JobSaid[K] | null }

/**
 * Adds a job with all its positions and the parts put aside for it, as one edit.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `bad-input` where the name is used; `not-found` a part; `usage` a part that is not free: then
 * nothing was added
 */
export const addJob = (book: Book, given: NewJob, at: string): Promise<JobEdited> =>
  write(book, async (work) => {
    requireTime(at)
    requireNewName(work, given.name)
    const { name, equipment, power, state, note, begunOn, finishedOn } = given
    // it comes as one that was taken away, so that undoing its addition takes it away again
    const add = work.driver.prepare(
      `INSERT INTO job (name, equipment, power, state, note, begun_on, finished_on, removed, at)
       VALUES (?, ?, ?, ?, ?, ?, ?, 1, ?)`,
    )
    const said = [name, equipment ?? null, power ?? null, state, note ?? null, begunOn ?? null, finishedOn ?? null, at]
    const id = Number(add.run(...said).lastInsertRowid)
    const job: Job = { ...given, id, at, positions: [], reserved: [] }
    const fill: Doing = async (_, __, changed) => {
      work.driver.prepare('UPDATE job SET removed = 0 WHERE id = ?').run(id)
      for (const position of given.positions) await putPosition(work, { job, position, changed, isNew: true }, at)
      for (const tag of given.reserved) await reserveIn(work, { tag, job: id, position: null }, at)
      return `Job ${name} added.`
    }
    return noted(work, job, fill, at)
  })

function requireNewName({ driver }: Work, name: string, except = 0): void {
  const is = driver.prepare('SELECT 1 FROM job WHERE removed = 0 AND name = ? AND id <> ?').get(name, except)
  if (is === undefined) return
  const problem = 'is the name of a job already'
  throw new FaultError({
    code: 'bad-input',
    place: { field: 'job' },
    value: name,
    problem,
    mend: 'Give this job another name.',
  })
}

/**
 * Changes what is said of a job. One that becomes done gets its date, where none is given; one taken up again loses it.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found`; `bad-input` where the name is used
 */
export const editJob = (book: Book, which: number | string, changes: JobChanges, at: string): Promise<JobEdited> =>
  changeJob(
    book,
    which,
    async (work, job, changed) => {
      const after = { ...job, ...dated(job, changes, at), ...changes } as { [K in keyof JobSaid]: JobSaid[K] | null }
      if (after.name !== job.name) requireNewName(work, after.name ?? '', job.id)
      work.driver
        .prepare(
          `UPDATE job SET name = ?, equipment = ?, power = ?, state = ?, note = ?, begun_on = ?, finished_on = ?
           WHERE id = ?`,
        )
        .run(...jobFields.map((field) => after[field] ?? null), job.id)
      for (const { ref, fittedPart } of job.positions)
        if (fittedPart !== undefined && after.name !== job.name)
          await relabel(
            work,
            { tag: fittedPart, from: placeName(job.name, ref), to: placeName(after.name!, ref), changed },
            at,
          )
      return fieldsSay(`Job ${job.name}`, job, after, jobFields)
    },
    at,
  )

const jobFields = ['name', 'equipment', 'power', 'state', 'note', 'begunOn', 'finishedOn'] as const

const dated = (job: Job, { state }: JobChanges, at: string): JobChanges =>
  state === undefined || state === job.state
    ? {}
    : { finishedOn: state === 'done' ? (job.finishedOn ?? at.slice(0, 10)) : null }

/** Takes a job away: what was reserved for it is free again. It stays in the book, so that this can be undone. */
export const removeJob = (book: Book, which: number | string, at: string): Promise<JobEdited> =>
  changeJob(
    book,
    which,
    async ({ driver }, job) => {
      driver.prepare('DELETE FROM reserved WHERE job = ?').run(job.id)
      driver.prepare('UPDATE job SET removed = 1 WHERE id = ?').run(job.id)
      return `Job ${job.name} taken away.`
    },
    at,
  )

/**
 * Puts a part aside for a position of a job, or for the job. A part is reserved once at most.
 *
 * @throws {FaultError} `not-found`; `usage` where it is reserved for another job, used or gone
 */
export const reservePart = (
  book: Book,
  given: { readonly job: number | string; readonly tag: string; readonly ref?: string },
  at: string,
): Promise<JobEdited> =>
  changeJob(
    book,
    given.job,
    async (work, job) => {
      const { tag, ref } = given
      const position = ref === undefined ? null : positionNumber(work, job, ref)
      await reserveIn(work, { tag, job: job.id, position }, at)
      return `${tag} reserved for ${ref === undefined ? job.name : placeName(job.name, ref)}.`
    },
    at,
  )

/** Lets a part go that was put aside. @throws {FaultError} `not-found`; `usage` where it was not */
export const releasePart = (book: Book, tag: string, at: string): Promise<JobEdited> =>
  write(book, async (work) => {
    requireTime(at)
    const job = jobIn(work, await jobReserving(work, tag))
    const release: Doing = async () => {
      await releaseIn(work, tag)
      return `${tag} released from ${job.name}.`
    }
    return noted(work, job, release, at)
  })
