import { FaultError } from '#core/fault'
import type { Book } from './book.ts'
import { jobIn } from './job.ts'
import { enter } from './journal.ts'
import { withoutNulls } from './json.ts'
import { partNumber } from './part.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** What is kept of a photo beside its bytes. */
export interface Photo {
  readonly id: number
  /** Tag of the part; left out for a photo of a job. */
  readonly part?: string
  /** Number of the job; left out for a photo of a part. */
  readonly job?: number
  /** Name of the file it came from. */
  readonly name: string
  readonly type: 'image/png' | 'image/jpeg' | 'image/webp'
  readonly bytes: number
  readonly at: string
}

/** Whose photo it is. */
export type PhotoOf = { readonly part: string } | { readonly job: number }

export type NewPhoto = PhotoOf & Pick<Photo, 'name' | 'type'> & { readonly content: Uint8Array }

/**
 * Keeps a photo of a part or of a job in the book, as an edit of the journal.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` where the part or the job is not in the book
 */
export const addPhoto = (
  book: Book,
  given: NewPhoto,
  at: string,
): Promise<{ readonly photo: Photo; readonly edit: number }> =>
  write(book, async (work) => {
    requireTime(at)
    const { name, type, content } = given
    const { part, job, of, name: whose } = await numbersOf(work, given)
    const add = work.driver.prepare('INSERT INTO photo (part, job, name, type, at, bytes) VALUES (?, ?, ?, ?, ?, ?)')
    const id = Number(add.run(part, job, name, type, at, content).lastInsertRowid)
    const edit = enter(
      work,
      { change: { kind: 'photo', photo: id, ...of, removed: false }, say: `Photo added to ${whose}.` },
      at,
    )
    return { photo: { id, ...of, name, type, bytes: content.length, at }, edit }
  })

async function numbersOf(work: Work, given: PhotoOf) {
  if ('part' in given) {
    const { part } = given
    return { part: await partNumber(work.db, part), job: null, of: { part }, name: part }
  }
  const { id, name } = jobIn(work, given.job)
  return { part: null, job: id, of: { job: id }, name }
}

/** Photos of a part, oldest first. @throws {FaultError} `not-found` */
export const photos = (book: Book, tag: string): Promise<Photo[]> => photosOf(book, { part: tag })

/** Photos of a part or of a job, oldest first. @throws {FaultError} `not-found` */
export const photosOf = (book: Book, given: PhotoOf): Promise<Photo[]> =>
  read(book, async (work) => {
    const { part, job, of } = await numbersOf(work, given)
    const rows = work.driver.prepare<[number | null, number | null], Omit<Photo, 'part' | 'job'>>(
      `SELECT id, name, type, length(bytes) AS bytes, at FROM photo
       WHERE (part = ? OR job = ?) AND removed = 0 ORDER BY id`,
    )
    return rows.all(part, job).map(({ id, ...row }) => ({ id, ...of, ...row }))
  })

/** The bytes of a photo. @throws {FaultError} `not-found`, also where it was taken away */
export const photoContent = (
  book: Book,
  id: number,
): Promise<{ readonly type: Photo['type']; readonly content: Uint8Array }> =>
  read(book, async ({ driver }) => {
    const row = driver
      .prepare<[number], { type: Photo['type']; content: Buffer }>(
        'SELECT type, bytes AS content FROM photo WHERE id = ? AND removed = 0',
      )
      .get(id)
    if (row === undefined) throw noPhoto(id)
    return row
  })

/** Takes a photo away, as an edit of the journal; its bytes stay, so that it can come back. */
export const removePhoto = (
  book: Book,
  id: number,
  at: string,
): Promise<{ readonly part?: string; readonly job?: number; readonly edit: number }> =>
  write(book, async (work) => {
    const { name, ...of } = setRemoved(work, id, true)
    const change = { kind: 'photo', photo: id, ...of, removed: true } as const
    return { ...of, edit: enter(work, { change, say: `Photo of ${name} taken away.` }, at) }
  })

/** Takes a photo away or puts it back; gives whose it is. @throws {FaultError} `not-found` where it is so already */
export function setRemoved(
  { driver }: Work,
  id: number,
  removed: boolean,
): { readonly part?: string; readonly job?: number; readonly name: string } {
  const done = driver.prepare('UPDATE photo SET removed = ? WHERE id = ? AND removed <> ?')
  const is = removed ? 1 : 0
  if (done.run(is, id, is).changes === 0) throw noPhoto(id)
  const of = driver.prepare<[number], { part: string | null; job: number | null; name: string }>(
    `SELECT part.tag AS part, photo.job, coalesce(part.tag, job.name) AS name FROM photo
     LEFT JOIN part ON part.id = photo.part LEFT JOIN job ON job.id = photo.job WHERE photo.id = ?`,
  )
  return withoutNulls(of.get(id)!)
}

const noPhoto = (id: number): FaultError =>
  new FaultError({ code: 'not-found', what: 'photo in the book', name: String(id), near: [] })
