import { FaultError } from '#core/fault'
import type { Book } from './book.ts'
import { enter } from './journal.ts'
import { partNumber } from './part.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** What is kept of a photo beside its bytes. */
export interface Photo {
  readonly id: number
  /** Tag of the part. */
  readonly part: string
  /** Name of the file it came from. */
  readonly name: string
  readonly type: 'image/png' | 'image/jpeg' | 'image/webp'
  readonly bytes: number
  readonly at: string
}

export interface NewPhoto extends Pick<Photo, 'part' | 'name' | 'type'> {
  readonly content: Uint8Array
}

/**
 * Keeps a photo of a part in the book, as an edit of the journal.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` where the part is not in the book
 */
export const addPhoto = (
  book: Book,
  given: NewPhoto,
  at: string,
): Promise<{ readonly photo: Photo; readonly edit: number }> =>
  write(book, async (work) => {
    requireTime(at)
    const { part, name, type, content } = given
    const number = await partNumber(work.db, part)
    const add = work.driver.prepare('INSERT INTO photo (part, name, type, at, bytes) VALUES (?, ?, ?, ?, ?)')
    const id = Number(add.run(number, name, type, at, content).lastInsertRowid)
    const change = { kind: 'photo', photo: id, part, removed: false } as const
    const edit = enter(work, { change, say: `Photo added to ${part}.` }, at)
    return { photo: { id, part, name, type, bytes: content.length, at }, edit }
  })

/** Photos of a part, oldest first. @throws {FaultError} `not-found` */
export const photos = (book: Book, tag: string): Promise<Photo[]> =>
  read(book, async ({ db, driver }) => {
    const number = await partNumber(db, tag)
    return driver
      .prepare<[string, number], Photo>(
        `SELECT id, ? AS part, name, type, length(bytes) AS bytes, at FROM photo
         WHERE part = ? AND removed = 0 ORDER BY id`,
      )
      .all(tag, number)
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
): Promise<{ readonly part: string; readonly edit: number }> =>
  write(book, async (work) => {
    const part = setRemoved(work, id, true)
    const change = { kind: 'photo', photo: id, part, removed: true } as const
    return { part, edit: enter(work, { change, say: `Photo of ${part} taken away.` }, at) }
  })

/** Takes a photo away or puts it back; gives the tag of its part. @throws {FaultError} `not-found` where it is so already */
export function setRemoved({ driver }: Work, id: number, removed: boolean): string {
  const done = driver.prepare('UPDATE photo SET removed = ? WHERE id = ? AND removed <> ?')
  const is = removed ? 1 : 0
  if (done.run(is, id, is).changes === 0) throw noPhoto(id)
  const tag = driver.prepare<[number], string>('SELECT tag FROM part WHERE id = (SELECT part FROM photo WHERE id = ?)')
  return tag.pluck().get(id) as string
}

const noPhoto = (id: number): FaultError =>
  new FaultError({ code: 'not-found', what: 'photo in the book', name: String(id), near: [] })
