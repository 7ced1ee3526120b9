import { FaultError } from '#core/fault'
import type { Job } from '#core/job'
import type { Book } from './book.ts'
import { jobIn } from './job.ts'
import { changePartIn, type PartsChanged } from './job-parts.ts'
import { changesBetween, rowsOfJob } from './job-rows.ts'
import { enter } from './journal.ts'
import { requireTime } from './time.ts'
import { type Work, write } from './transaction.ts'

/** A job after an edit. */
export interface JobEdited {
  readonly job: Job
  /** Number of the edit, by which it can be undone; left out where nothing had changed. */
  readonly edit?: number
  /** Tags of the parts whose row in the drawer changed with it. */
  readonly parts: readonly string[]
}

/** What is done to a job, and says what it did; `changed` gathers what it changes of parts. */
export type Doing = (work: Work, job: Job, changed: PartsChanged) => Promise<string>

/** Changes a job as one edit of the journal. */
export const changeJob = (book: Book, which: number | string, doing: Doing, at: string): Promise<JobEdited> =>
  write(book, async (work) => {
    requireTime(at)
    return noted(work, jobIn(work, which), doing, at)
  })

/** The same inside a transaction. */
export async function noted(work: Work, job: Job, doing: Doing, at: string): Promise<JobEdited> {
  const changed: PartsChanged = []
  const before = rowsOfJob(work, job.id)
  const say = await doing(work, job, changed)
  const rows = changesBetween(before, rowsOfJob(work, job.id))
  if (rows.length === 0 && changed.length === 0) return { job, parts: [] }
  const aside = rows.filter((row) => row.table === 'reserved').map((row) => tagOf(work, row.key))
  const tags = [...new Set([...aside, ...changed.map((one) => one.tag)])]
  const edit = enter(work, { change: { kind: 'job', job: job.id, rows, tags, parts: changed }, say }, at)
  const isGone = work.driver.prepare<[number], number>('SELECT removed FROM job WHERE id = ?').pluck().get(job.id) === 1
  return { job: isGone ? job : jobIn(work, job.id), edit, parts: tags }
}

const tagOf = ({ driver }: Work, part: number): string =>
  driver.prepare<[number], string>('SELECT tag FROM part WHERE id = ?').pluck().get(part)!

/** Gives a fitted part the new name of its place, where it still says the old one. */
export async function relabel(
  work: Work,
  given: { readonly tag: string; readonly from: string; readonly to: string; readonly changed: PartsChanged },
  at: string,
): Promise<void> {
  const { tag, from, to, changed } = given
  const says = work.driver.prepare<[string], string | null>('SELECT used_in FROM part WHERE tag = ?').pluck().get(tag)
  if (says === from) await changePartIn(work, { tag, changes: { usedIn: to }, changed }, at)
}

/** The number of a position of a job. @throws {FaultError} `not-found` with near names */
export function positionNumber({ driver }: Work, job: Job, ref: string): number {
  const row = driver.prepare<[number, string], number>('SELECT id FROM position WHERE job = ? AND ref = ?').pluck()
  const number = row.get(job.id, ref)
  if (number !== undefined) return number
  throw new FaultError({
    code: 'not-found',
    what: `position of ${job.name}`,
    name: ref,
    near: job.positions.map((one) => one.ref).slice(0, 12),
  })
}
