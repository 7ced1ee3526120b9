import { basename } from 'node:path'
import {
  bookSummary,
  drawerRows,
  drawerSince,
  drawerVersion,
  foreignWrites,
  journal,
  lots,
  partNumbers,
  touchedSince,
  type Undone,
  undoEdit,
} from '#book'
import { type Bench, bookOf } from './bench.ts'
import { patiently } from './patience.ts'
import { isDemo } from './put-demo.ts'
import { settleWhereEnded } from './typed-reading.ts'

/** A book in short, as its first page shows it. */
export async function bookPage(bench: Bench) {
  const book = bookOf(bench)
  const summary = await bookSummary(book)
  return {
    file: basename(book.path),
    isEmpty: summary.parts === 0 && summary.runs === 0,
    isDemo: await isDemo(bench),
    ...summary,
    lots: (await lots(book)).map(({ name, parts }) => ({ name, parts })),
  }
}

/** Edits that can be undone, newest first. */
export const editList = (bench: Bench, limit?: number) => journal(bookOf(bench), limit)

/** Undoes an edit, the last one where none is named; results that hang on it are computed anew. */
export async function undo(bench: Bench, edit?: number): Promise<Undone> {
  const undone = await patiently(() => undoEdit(bookOf(bench), edit, bench.now()))
  const { change } = undone
  if (change.kind === 'reading') await settleWhereEnded(bench, change.run, change.part)
  return undone
}

export type { Change, DrawerRow, Undone } from '#book'

/** What a list of all parts is made from; see the functions of the same names in the book. */
export const drawerOf = (bench: Bench) => {
  const book = bookOf(bench)
  return {
    version: () => drawerVersion(book),
    numbers: () => partNumbers(book),
    rows: (first: number, last: number) => drawerRows(book, first, last),
    since: (version: number) => drawerSince(book, version),
    touched: (version: number) => touchedSince(book, version),
    /** Changes when another program, or another thread, has written to the book. */
    foreignWrites: () => foreignWrites(book),
  }
}
