import { FaultError } from '#core/fault'
import type { PartChanges } from './edit.ts'
import { editPartIn } from './edit.ts'
import type { Change } from './journal.ts'
import { partNumber } from './part.ts'
import type { Work } from './transaction.ts'

/** What an edit of a job changed of parts, gathered while it is made. */
export type PartsChanged = Extract<Change, { kind: 'part' }>['parts'][number][]

/** What a fitted part says of where it is used. */
export const placeName = (job: string, ref: string): string => `${job}, ${ref}`

/** Changes a part as a part of an edit of a job. */
export async function changePartIn(
  work: Work,
  given: { readonly tag: string; readonly changes: PartChanges; readonly changed: PartsChanged },
  at: string,
): Promise<void> {
  const { changed } = await editPartIn(work, given.tag, given.changes, at)
  if (Object.keys(changed).length > 0) given.changed.push({ tag: given.tag, changed })
}

interface Aside {
  readonly job: number
  readonly position: number | null
  readonly name: string
  readonly ref: string | null
}

const asideOf = ({ driver }: Work, part: number): Aside | undefined =>
  driver
    .prepare<[number], Aside>(
      `SELECT reserved.job, reserved.position, job.name, position.ref FROM reserved
       JOIN job ON job.id = reserved.job LEFT JOIN position ON position.id = reserved.position WHERE reserved.part = ?`,
    )
    .get(part)

/** The job a part is reserved for. @throws {FaultError} `not-found`; `usage` where it is for none */
export async function jobReserving(work: Work, tag: string): Promise<number> {
  const aside = asideOf(work, await partNumber(work.db, tag))
  if (aside !== undefined) return aside.job
  throw new FaultError({ code: 'usage', problem: `${tag} is not reserved`, mend: 'There is nothing to release.' })
}

/** Parts of these are not there to be put aside. */
const gone: ReadonlySet<string> = new Set(['used', 'given away', 'scrapped'])

/** Puts a part aside for a position, or for the job where there is none; one put aside in the job already moves. */
export async function reserveIn(
  work: Work,
  given: { readonly tag: string; readonly job: number; readonly position: number | null },
  at: string,
): Promise<void> {
  const { tag, job, position } = given
  const part = await partNumber(work.db, tag)
  requireFree(work, { tag, part, job })
  const status = work.driver.prepare<[number], string>('SELECT status FROM part WHERE id = ?').pluck().get(part)
  if (gone.has(status!))
    throw new FaultError({
      code: 'usage',
      problem: `${tag} cannot be reserved: it is ${status}`,
      mend: 'Reserve another part, or change its status first.',
    })
  work.driver
    .prepare(
      `INSERT INTO reserved (part, job, position, at) VALUES (?, ?, ?, ?)
       ON CONFLICT (part) DO UPDATE SET position = excluded.position`,
    )
    .run(part, job, position, at)
}

/** @throws {FaultError} `usage` where the part is reserved for another job */
function requireFree(work: Work, { tag, part, job }: { tag: string; part: number; job: number }): void {
  const aside = asideOf(work, part)
  if (aside === undefined || aside.job === job) return
  const where = aside.ref === null ? aside.name : placeName(aside.name, aside.ref)
  throw new FaultError({
    code: 'usage',
    problem: `${tag} is reserved for ${where} already`,
    mend: 'Release it there first, or take another part.',
  })
}

/** Lets a part go that was put aside. */
export async function releaseIn(work: Work, tag: string): Promise<void> {
  work.driver.prepare('DELETE FROM reserved WHERE part = ?').run(await partNumber(work.db, tag))
}

/** The number of a part that is to be fitted; it is no longer reserved then. @throws {FaultError} where it is not free */
export async function numberToFit(
  work: Work,
  { tag, job, position }: { readonly tag: string; readonly job: number; readonly position: number },
): Promise<number> {
  const part = await partNumber(work.db, tag)
  requireFree(work, { tag, part, job })
  const there = work.driver
    .prepare<[number, number], { name: string; ref: string }>(
      `SELECT job.name, position.ref FROM position JOIN job ON job.id = position.job
       WHERE job.removed = 0 AND position.fitted_part = ? AND position.id <> ?`,
    )
    .get(part, position)
  if (there !== undefined)
    throw new FaultError({
      code: 'usage',
      problem: `${tag} is fitted in ${placeName(there.name, there.ref)} already`,
      mend: 'Take it out there first, or fit another part.',
    })
  work.driver.prepare('DELETE FROM reserved WHERE part = ?').run(part)
  return part
}
