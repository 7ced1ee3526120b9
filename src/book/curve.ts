import { FaultError } from '#core/fault'
import type { Curve } from '#core/fit'
import { tagProblem } from '#core/tester'
import type { Book } from './book.ts'
import { fromJson, toJson, withoutNulls } from './json.ts'
import { partNumber } from './part.ts'
import { partNumbers } from './reading-rows.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** What is known of a curve beside its points. */
export interface CurveAbout {
  /** Of the part during the sweep, degC. */
  readonly temperatureC?: number
  /** When it was taken, ISO. */
  readonly takenAt?: string
  /** Name of the file it came from. */
  readonly file: string
  /** `contentHash` of the file. */
  readonly hash: string
  readonly note?: string
}

/** A curve to be kept; its name is the tag of its part. */
export interface NewCurve extends CurveAbout {
  readonly curve: Curve
}

/** A curve in the book. */
export interface BookCurve extends NewCurve {
  readonly id: number
  /** When it came into the book. */
  readonly at: string
}

/**
 * Keeps curves of parts in one transaction: all of them or none. A part that is not in the book yet is added.
 *
 * @param again takes a file again whose curves of the same part are in the book
 * @param at date and time now, ISO
 * @throws {FaultError} `usage` where a file was kept for the part before; `bad-input` for a tag, `out-of-domain` for a
 * time that is none
 */
export const addCurves = (book: Book, given: readonly NewCurve[], again: boolean, at: string): Promise<BookCurve[]> =>
  write(book, async (work) => {
    requireTime(at)
    for (const one of given) requireSound(one)
    const parts = partNumbers(
      work.driver,
      given.map((one) => ({ part: one.curve.name })),
      at,
    )
    return given.map((one) => {
      const part = parts.get(one.curve.name)!
      if (!again) requireNew(work, part, one)
      return { ...one, id: insertCurve(work, part, one, at), at }
    })
  })

function requireSound({ takenAt, curve }: NewCurve): void {
  if (takenAt !== undefined) requireTime(takenAt)
  const bad = tagProblem(curve.name)
  if (bad !== undefined)
    throw new FaultError({ code: 'bad-input', place: { field: 'part' }, value: curve.name, ...bad })
}

function insertCurve({ driver }: Work, part: number, { curve, ...about }: NewCurve, at: string): number {
  const insert = driver.prepare(
    `INSERT INTO curve (part, kind, polarity, temperature, taken_at, file, hash, note, notes, points, at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  )
  const { temperatureC, takenAt, file, hash, note } = about
  const known = [temperatureC ?? null, takenAt ?? null, file, hash, note ?? null]
  const read = [toJson(curve.notes, 'notes'), toJson(curve.points, 'points')]
  return Number(insert.run(part, curve.kind, curve.polarity, ...known, ...read, at).lastInsertRowid)
}

function requireNew({ driver }: Work, part: number, { curve, file, hash }: NewCurve): void {
  const before = driver
    .prepare<[number, string], { id: number; at: string }>('SELECT id, at FROM curve WHERE part = ? AND hash = ?')
    .get(part, hash)
  if (before === undefined) return
  throw new FaultError({
    code: 'usage',
    problem: `${file} was kept before for ${curve.name}: curve ${before.id}, ${before.at}`,
    mend: 'Nothing was added. If it really was taken again, say so with --again.',
  })
}

interface CurveRow {
  id: number
  kind: Curve['kind']
  polarity: Curve['polarity']
  temperatureC: number | null
  takenAt: string | null
  file: string
  hash: string
  note: string | null
  notes: string
  points: string
  at: string
}

/** Curves of a part, in the order in which they came into the book. @throws {FaultError} `not-found` no such part */
export const curves = (book: Book, tag: string): Promise<BookCurve[]> =>
  read(book, async ({ db, driver }) => {
    const number = await partNumber(db, tag)
    return driver
      .prepare<[number], CurveRow>(
        `SELECT id, kind, polarity, temperature AS temperatureC, taken_at AS takenAt, file, hash, note, notes, points, at
         FROM curve WHERE part = ? ORDER BY id`,
      )
      .all(number)
      .map((row) => curveOfRow(row, tag))
  })

function curveOfRow({ kind, polarity, notes, points, ...about }: CurveRow, name: string): BookCurve {
  const curve: Curve = { name, kind, polarity, points: fromJson(points), notes: fromJson(notes) }
  return { ...withoutNulls(about), curve }
}
