import { FaultError } from '#core/fault'
import { type Job, type JobPosition, type PositionSaid, settled } from '#core/job'
import type { Book } from './book.ts'
import { changeJob, type JobEdited, positionNumber, relabel } from './job-change.ts'
import { changePartIn, numberToFit, type PartsChanged, placeName, reserveIn } from './job-parts.ts'
import { fieldsSay } from './job-say.ts'
import { partNumber } from './part.ts'
import type { Work } from './transaction.ts'

/** What to change of a position; null takes a value away. */
export type PositionChanges = { readonly [K in keyof PositionSaid]?: PositionSaid[K] | null }

/** A position, and where it is. */
export interface PositionOf {
  readonly job: number | string
  readonly ref: string
}

/**
 * Adds a position to a job. @throws {FaultError} `not-found` the job or a part; `bad-input` where there is one of the
 * name; `usage` where a part is not free
 */
export const addPosition = (
  book: Book,
  given: { readonly job: number | string; readonly position: JobPosition },
  at: string,
): Promise<JobEdited> =>
  changeJob(
    book,
    given.job,
    async (work, job, changed) => {
      await putPosition(work, { job, position: settled(given.position), changed, isNew: true }, at)
      return `${given.position.ref} added to ${job.name}.`
    },
    at,
  )

/**
 * Changes what is said of a position. A part that is fitted is used from then on, says where, and is no longer reserved;
 * the one it takes the place of is kept again. A position that is done is decided.
 *
 * @throws {FaultError} `not-found`; `bad-input` a name used already; `usage` a part that is not free
 */
export const editPosition = (
  book: Book,
  { job: which, ref }: PositionOf,
  changes: PositionChanges,
  at: string,
): Promise<JobEdited> =>
  changeJob(
    book,
    which,
    async (work, job, changed) => {
      positionNumber(work, job, ref)
      const was = job.positions.find((one) => one.ref === ref)!
      const position = settled(withChanges(was, changes))
      await putPosition(work, { job, position, was, changed, isNew: false }, at)
      return fieldsSay(`${ref} of ${job.name}`, was, position, positionFields)
    },
    at,
  )

const positionFields = [
  'ref',
  'type',
  'role',
  'circuit',
  'found',
  'foundPart',
  'decision',
  'fitted',
  'fittedPart',
  'done',
  'note',
] as const

function withChanges(was: JobPosition, changes: PositionChanges): JobPosition {
  const all = Object.entries({ ...was, ...defined(changes) }).filter(([, value]) => value !== null)
  return Object.fromEntries(all) as unknown as JobPosition
}

const defined = (changes: PositionChanges) =>
  Object.fromEntries(Object.entries(changes).filter(([, v]) => v !== undefined))

/** Takes a position away; what was reserved for it is free again. @throws {FaultError} `not-found` */
export const removePosition = (book: Book, { job: which, ref }: PositionOf, at: string): Promise<JobEdited> =>
  changeJob(
    book,
    which,
    async (work, job) => {
      const number = positionNumber(work, job, ref)
      work.driver.prepare('DELETE FROM reserved WHERE position = ?').run(number)
      work.driver.prepare('DELETE FROM position WHERE id = ?').run(number)
      return `${ref} taken out of ${job.name}.`
    },
    at,
  )

interface Putting {
  readonly job: Job
  readonly position: JobPosition
  readonly was?: JobPosition
  readonly changed: PartsChanged
  readonly isNew: boolean
}

/** Writes a position as it is to be, and changes the parts it has to do with. */
export async function putPosition(work: Work, { job, position, was, changed, isNew }: Putting, at: string) {
  const { ref, decision, done } = position
  if (ref !== was?.ref) requireNewRef(work, job, ref)
  const id = isNew ? insertNamed(work, job, ref, at) : positionNumber(work, job, was!.ref)
  const found = position.foundPart === undefined ? null : await partNumber(work.db, position.foundPart)
  const fitted =
    position.fittedPart === undefined
      ? null
      : await numberToFit(work, { tag: position.fittedPart, job: job.id, position: id })
  const said = [position.type, position.role, position.circuit, position.found].map((text) => text ?? null)
  work.driver
    .prepare(
      `UPDATE position SET ref = ?, type = ?, role = ?, circuit = ?, found = ?, found_part = ?, decision = ?,
         fitted = ?, fitted_part = ?, done = ?, note = ? WHERE id = ?`,
    )
    .run(ref, ...said, found, decision, position.fitted ?? null, fitted, done ? 1 : 0, position.note ?? null, id)
  await moveFitted(work, { job, position, ...(was === undefined ? {} : { was }), changed }, at)
  if (isNew) for (const tag of position.reserved) await reserveIn(work, { tag, job: job.id, position: id }, at)
}

function insertNamed({ driver }: Work, job: Job, ref: string, at: string): number {
  const add = driver.prepare("INSERT INTO position (job, ref, decision, at) VALUES (?, ?, 'undecided', ?)")
  return Number(add.run(job.id, ref, at).lastInsertRowid)
}

/** What was fitted is free again, what is fitted now is used. */
async function moveFitted(work: Work, { job, position, was, changed }: Omit<Putting, 'isNew'>, at: string) {
  const [before, after] = [was?.fittedPart, position.fittedPart]
  const use = placeName(job.name, position.ref)
  if (before === after) {
    if (after !== undefined && was !== undefined && was.ref !== position.ref)
      await relabel(work, { tag: after, from: placeName(job.name, was.ref), to: use, changed }, at)
    return
  }
  if (before !== undefined)
    await changePartIn(work, { tag: before, changes: { status: 'kept', usedIn: null }, changed }, at)
  if (after !== undefined)
    await changePartIn(work, { tag: after, changes: { status: 'used', usedIn: use }, changed }, at)
}

function requireNewRef({ driver }: Work, job: Job, ref: string): void {
  if (driver.prepare('SELECT 1 FROM position WHERE job = ? AND ref = ?').get(job.id, ref) === undefined) return
  const problem = `is a position of ${job.name} already`
  throw new FaultError({
    code: 'bad-input',
    place: { field: 'ref' },
    value: ref,
    problem,
    mend: 'Give it another name.',
  })
}
