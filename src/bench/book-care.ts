import {
  type Backup,
  type BookReading,
  backupBook,
  type Counts,
  checkBook,
  closeBook,
  correctReading,
  createBook,
  editPart,
  exportJson,
  exportReadings,
  importJson,
  type Part,
  type PartChanges,
  readings,
  type Saved,
  savePartType,
} from '#book'
import type { PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { parseShown, readingsCsv } from '#core/tester'
import { type Bench, bookOf } from './bench.ts'
import { judgeRun, settleRun } from './keep.ts'

/** Makes a new, empty book. @throws {FaultError} `book` where there is something of that name */
export const makeBook = async (file: string, at: string): Promise<void> => closeBook(await createBook(file, at))

/** Puts a part type into the book. */
export const keepType = (bench: Bench, type: PartType): Promise<Saved> => savePartType(bookOf(bench), type, bench.now())

/** Copies the book and reads the copy again. */
export const backupOf = (bench: Bench, to: string): Promise<Backup> => backupBook(bookOf(bench), to)

/** How much is in the book. */
export async function bookInfo(bench: Bench): Promise<{ file: string; counts: Counts | Record<string, never> }> {
  const book = bookOf(bench)
  return { file: book.file, counts: (await checkBook(book)).counts ?? {} }
}

/** The book as one JSON document, or its readings as CSV. */
export async function exportBook(bench: Bench, as: 'json' | 'csv'): Promise<string> {
  const book = bookOf(bench)
  return as === 'csv' ? readingsCsv(await exportReadings(book)) : exportJson(book)
}

/** Changes what is said of a part. @throws {FaultError} `usage` where no change was named */
export function changePart(bench: Bench, tag: string, o: Readonly<Record<string, unknown>>): Promise<Part> {
  const fields = ['type', 'lot', 'place', 'note', 'status', 'usedIn'].filter((f) => typeof o[f] === 'string')
  if (fields.length === 0)
    throw new FaultError({
      code: 'usage',
      problem: 'No change was named',
      mend: 'Add --place, --note, --lot, --type, --status or --used-in; an empty text takes a value away.',
    })
  const changes = Object.fromEntries(fields.map((f) => [f, o[f] === '' ? null : o[f]])) as PartChanges
  return editPart(bookOf(bench), tag, changes, bench.now())
}

/** Corrects a reading by its number and computes the results of its run anew. */
export async function mendReading(
  bench: Bench,
  id: number,
  shown: string,
): Promise<{ kept: BookReading; echo: string }> {
  const book = bookOf(bench)
  const old = (await readings(book, {})).find((r) => r.id === id)
  if (old === undefined)
    throw new FaultError({ code: 'not-found', what: 'reading in the book', name: String(id), near: [] })
  const { tester } = await judgeRun(bench, old.run)
  const parsed = parseShown(shown, old.reading.reads, tester, old.reading.range)
  if (!parsed.ok) throw new FaultError(parsed.faults)
  const reading = { ...old.reading, shown: parsed.shown, seen: parsed.seen }
  const kept = await correctReading(book, { replaces: id, reading }, bench.now())
  await settleRun(bench, old.run)
  return { kept, echo: parsed.echo }
}

/** Makes a new book of what an export wrote. @throws {FaultError} what is wrong with it; then there is no new book */
export const restoreBook = (text: string, from: string, book: string): Promise<void> => importJson(book, text, from)
