import type { Book } from './book.ts'
import { fromJson, withoutNulls } from './json.ts'
import type { Figure } from './newest.ts'
import type { PartStatus } from './part.ts'
import { read } from './transaction.ts'

/** One part as a list shows it; null where it has none. */
export interface DrawerRow {
  readonly id: number
  readonly tag: string
  readonly type: string | null
  readonly lot: string | null
  readonly place: string | null
  readonly status: PartStatus
  readonly usedIn: string | null
  /** What it is reserved for, in words: the job, and the position where there is one. */
  readonly reserved: string | null
  /** 1 where it has a note. */
  readonly hasNote: number
  /** Number of photos. */
  readonly photos: number
  /** Newest run with results. */
  readonly run: number | null
  readonly state: string | null
  readonly word: string | null
  readonly figures: Readonly<Record<string, Figure>> | null
}

type Row = Omit<DrawerRow, 'figures'> & { figures: string | null }

const select = `
SELECT part.id, part.tag, part.type, lot.name AS lot, part.place, part.status, part.used_in AS usedIn,
  coalesce(part.note, '') <> '' AS hasNote, newest.run, newest.state, newest.verdict AS word, newest.figures,
  job.name || coalesce(', ' || position.ref, '') AS reserved,
  (SELECT count(*) FROM photo WHERE photo.part = part.id AND photo.removed = 0) AS photos
FROM part LEFT JOIN lot ON lot.id = part.lot LEFT JOIN newest ON newest.part = part.id
  LEFT JOIN reserved ON reserved.part = part.id LEFT JOIN job ON job.id = reserved.job
  LEFT JOIN position ON position.id = reserved.position`

/** Grows with every change of a part, of its newest results or of its photos. */
export const drawerVersion = (book: Book): Promise<number> =>
  read(book, async ({ driver }) => versionQuery(driver).get() ?? 0)

const versionQuery = (driver: Book['driver']) => driver.prepare<[], number>('SELECT max(version) FROM touched').pluck()

/** Numbers of all parts in the order in which they came. A part is never taken out, so its row stays for ever. */
export const partNumbers = (book: Book): Promise<number[]> =>
  read(book, async ({ driver }) => driver.prepare<[], number>('SELECT id FROM part ORDER BY id').pluck().all())

/** Parts with numbers in a span, both ends counted. */
export const drawerRows = (book: Book, first: number, last: number): Promise<DrawerRow[]> =>
  read(book, async ({ driver }) =>
    driver
      .prepare<[number, number], Row>(`${select} WHERE part.id BETWEEN ? AND ? ORDER BY part.id`)
      .all(first, last)
      .map(rowOf),
  )

/** Parts that changed since a version. */
export interface DrawerSince {
  /** The version of now. */
  readonly version: number
  /** Parts altogether. */
  readonly count: number
  readonly rows: readonly DrawerRow[]
  /** Where each of them stands in the order in which they came, from 0. */
  readonly places: readonly number[]
}

/** Parts that changed since a version; all from one state of the book. */
export const drawerSince = (book: Book, version: number): Promise<DrawerSince> =>
  read(book, async ({ driver }) => {
    const rows = driver
      .prepare<[number], Row>(
        `${select} WHERE part.id IN (SELECT part FROM touched WHERE version > ?) ORDER BY part.id`,
      )
      .all(version)
      .map(rowOf)
    const [count, last] = driver.prepare('SELECT count(*), max(id) FROM part').raw().get() as [number, number | null]
    const places = last === null || last === count ? rows.map((row) => row.id - 1) : placesAmong(driver, rows)
    return { version: versionQuery(driver).get() ?? 0, count, rows, places }
  })

/** Where parts stand, for a book whose parts are not counted without a gap. */
function placesAmong(driver: Book['driver'], rows: readonly DrawerRow[]): number[] {
  const before = driver.prepare<[number], number>('SELECT count(*) FROM part WHERE id < ?').pluck()
  return rows.map((row) => before.get(row.id) ?? 0)
}

/** Numbers of the parts that changed since a version. */
export const touchedSince = (
  book: Book,
  version: number,
): Promise<{ readonly version: number; readonly parts: readonly number[] }> =>
  read(book, async ({ driver }) => ({
    version: versionQuery(driver).get() ?? 0,
    parts: driver
      .prepare<[number], number>('SELECT part FROM touched WHERE version > ? ORDER BY part')
      .pluck()
      .all(version),
  }))

/** Tags of the parts before and after one, in the order in which they came. */
export const neighbours = (book: Book, tag: string): Promise<{ readonly before?: string; readonly after?: string }> =>
  read(book, async ({ driver }) => {
    const own = '(SELECT id FROM part WHERE tag = @tag)'
    const row = driver
      .prepare<[{ tag: string }], { before: string | null; after: string | null }>(
        `SELECT (SELECT tag FROM part WHERE id < ${own} ORDER BY id DESC LIMIT 1) AS before,
           (SELECT tag FROM part WHERE id > ${own} ORDER BY id LIMIT 1) AS after`,
      )
      .get({ tag })
    return row === undefined ? {} : withoutNulls(row)
  })

/** A number that changes when another program, or another thread, has written to the book. */
export const foreignWrites = (book: Book): number => book.driver.pragma('data_version', { simple: true }) as number

/** Rows are made in place: there may be a hundred thousand. */
function rowOf(row: Row): DrawerRow {
  const made = row as unknown as { figures: DrawerRow['figures'] } & DrawerRow
  if (row.figures !== null) made.figures = fromJson<DrawerRow['figures']>(row.figures)
  return made
}
