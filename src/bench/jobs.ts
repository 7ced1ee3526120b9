import {
  addJob,
  addPosition,
  editJob,
  editPosition,
  type JobChanges,
  type JobEdited,
  job,
  jobs,
  type PartPlace,
  type PositionChanges,
  placesOfPart,
  releasePart,
  removeJob,
  removePosition,
  reservePart,
} from '#book'
import { findType } from '#core/device'
import { type Job, type JobPosition, type NewJob, readCircuitOf, readJob } from '#core/job'
import { type Bench, bookOf } from './bench.ts'
import { patiently } from './patience.ts'

export type { JobEdited, PartPlace } from '#book'

/** A job by its number, its name, or its number as text. @throws {FaultError} `not-found` with near names */
export async function jobNamed(bench: Bench, which: string | number): Promise<Job> {
  const book = bookOf(bench)
  if (typeof which === 'number') return job(book, which)
  const all = await jobs(book)
  const found = all.find((one) => one.name === which) ?? all.find((one) => String(one.id) === which)
  return found ?? job(book, which)
}

/** All jobs, those in hand first. */
export const jobList = (bench: Bench): Promise<readonly Job[]> => jobs(bookOf(bench))

/** Where a part has to do with jobs. @throws {FaultError} `not-found` */
export const jobsOfPart = (bench: Bench, tag: string): Promise<readonly PartPlace[]> => placesOfPart(bookOf(bench), tag)

/**
 * Adds the job of a file with its positions, all or nothing.
 *
 * @throws {FaultError} every fault of the file; a name that is used; a part that is not there or not free
 */
export const addJobText = (bench: Bench, text: string, file?: string): Promise<JobEdited> =>
  keepJob(bench, readJob(text, file))

/** Adds a job. */
export const keepJob = (bench: Bench, given: NewJob): Promise<JobEdited> =>
  patiently(() => addJob(bookOf(bench), given, bench.now()))

/** Changes what is said of a job; an empty text takes a value away. */
export const changeJob = (bench: Bench, which: number, changes: JobChanges): Promise<JobEdited> =>
  patiently(() => editJob(bookOf(bench), which, emptied(changes), bench.now()))

/** Takes a job away; the edit can be undone. */
export const dropJob = (bench: Bench, which: number): Promise<JobEdited> =>
  patiently(() => removeJob(bookOf(bench), which, bench.now()))

/** Adds a position. @throws {FaultError} every fault of its circuit */
export const addPositionTo = (
  bench: Bench,
  which: number,
  given: Partial<JobPosition> & { readonly ref: string },
): Promise<JobEdited> => {
  const { reserved = [], decision = 'undecided', done = false, ...rest } = given
  requireCircuit(rest.circuit)
  const said = Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== '' && value !== undefined))
  const position = { ...said, ref: given.ref, decision, done, reserved } as JobPosition
  return patiently(() => addPosition(bookOf(bench), { job: which, position }, bench.now()))
}

/**
 * Changes what is said of a position; an empty text takes a value away. What is fitted where nothing was decided says:
 * replace.
 *
 * @throws {FaultError} every fault of its circuit; a part that is not there or not free
 */
export async function changePosition(
  bench: Bench,
  at: { readonly job: number; readonly ref: string },
  changes: PositionChanges,
): Promise<JobEdited> {
  requireCircuit(changes.circuit)
  const isFitted = (changes.fitted ?? '') !== '' || (changes.fittedPart ?? '') !== ''
  const before = (await job(bookOf(bench), at.job)).positions.find((one) => one.ref === at.ref)
  const decides = isFitted && changes.decision === undefined && before?.decision === 'undecided'
  const all = { ...emptied(changes), ...(decides ? { decision: 'replace' as const } : {}) }
  return patiently(() => editPosition(bookOf(bench), at, all, bench.now()))
}

/** Takes a position out of its job; the edit can be undone. */
export const dropPosition = (bench: Bench, at: { readonly job: number; readonly ref: string }): Promise<JobEdited> =>
  patiently(() => removePosition(bookOf(bench), at, bench.now()))

/** Puts a part aside for a job or a position of it. @throws {FaultError} where it is not free */
export const reserveFor = (
  bench: Bench,
  given: { readonly job: number; readonly tag: string; readonly ref?: string },
): Promise<JobEdited> => patiently(() => reservePart(bookOf(bench), given, bench.now()))

/** Lets a part go that was put aside. */
export const release = (bench: Bench, tag: string): Promise<JobEdited> =>
  patiently(() => releasePart(bookOf(bench), tag, bench.now()))

const emptied = <T extends JobChanges | PositionChanges>(changes: T): T =>
  Object.fromEntries(
    Object.entries(changes)
      .filter(([, value]) => value !== undefined)
      .map(([field, value]) => [field, value === '' ? null : value]),
  ) as T

/** @throws {FaultError} every fault of the circuit, each under `circuit` */
function requireCircuit(text: string | null | undefined): void {
  if (text === undefined || text === null || text.trim() === '') return
  readCircuitOf(text, 'circuit')
}

/** Types of a job that no record is known of, each once. */
export const unknownTypes = (bench: Bench, { positions }: Pick<Job, 'positions'>): readonly string[] => [
  ...new Set(positions.flatMap(({ type }) => (type === undefined || findType(bench.types, type).found ? [] : [type]))),
]
