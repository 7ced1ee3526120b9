import type { Book, Driver } from './book.ts'
import { connect, versionOf } from './connect.ts'
import { type Counts, countsOf } from './counts.ts'
import { applySteps } from './migrate.ts'
import { migrations } from './migrations/index.ts'
import { type Recompute, staleResults } from './recompute.ts'
import { differences, type Structure, structureOf } from './structure.ts'
import { read } from './transaction.ts'
import { codeOf } from './trouble.ts'

/** What is wrong with a book, by what it touches. */
export interface Finding {
  readonly about: 'file' | 'structure' | 'link' | 'record' | 'result'
  /** A sentence with what was found. */
  readonly say: string
}

export interface CheckReport {
  /** True where nothing is wrong. */
  readonly ok: boolean
  readonly findings: readonly Finding[]
  /** Rows of each table; left out where the file is too damaged to count them. */
  readonly counts?: Counts
  /** Results that were computed again and compared. */
  readonly recomputed: number
}

export interface CheckOptions {
  /** Computes the results of a run again, to be compared with the stored ones. */
  readonly recompute?: Recompute
}

/**
 * Reads a book whole and says what is wrong with it: the file, the structure with its guards, links between rows, what
 * records say of each other, and whether results computed again equal the stored ones. Changes nothing.
 */
export async function checkBook(book: Book, options: CheckOptions = {}): Promise<CheckReport> {
  const file = await fileFindings(book)
  if (file.length > 0) return { ok: false, findings: file, recomputed: 0 }
  const wanted = await freshStructure()
  const { findings, counts } = await read(book, async ({ driver }) => ({
    findings: [...structureFindings(driver, wanted), ...linkFindings(driver), ...recordFindings(driver)],
    counts: countsOf(driver),
  }))
  const { compared, differ } =
    options.recompute === undefined ? { compared: 0, differ: [] } : await staleResults(book, options.recompute)
  const all = [...findings, ...differ.map((say): Finding => ({ about: 'result', say }))]
  return { ok: all.length === 0, findings: all, counts, recomputed: compared }
}

/** Every page, index, constraint and type, as SQLite itself checks them. */
const fileFindings = (book: Book): Promise<Finding[]> =>
  read(book, async ({ driver }) => {
    try {
      const rows = driver.pragma('integrity_check') as readonly { integrity_check: string }[]
      return rows
        .map((row) => row.integrity_check)
        .filter((line) => line !== 'ok')
        .map((line): Finding => ({ about: 'file', say: `The file is damaged: ${line}.` }))
    } catch (error) {
      if (!codeOf(error).startsWith('SQLITE_CORRUPT')) throw error
      return [{ about: 'file', say: 'The file is so damaged that it cannot be read to its end.' }]
    }
  })

/** The structure a new book has. */
async function freshStructure(): Promise<Structure> {
  const fresh = await connect(':memory:', { waitMs: 0, create: true })
  try {
    applySteps(fresh, ':memory:', migrations)
    return structureOf(fresh)
  } finally {
    fresh.close()
  }
}

function structureFindings(driver: Driver, wanted: Structure): Finding[] {
  const version = versionOf(driver)
  const marks = version === migrations.length ? [] : [`The book says it has version ${version}.`]
  return [...marks, ...differences(structureOf(driver), wanted)].map((say) => ({ about: 'structure', say }))
}

function linkFindings(driver: Driver): Finding[] {
  const loose = driver.pragma('foreign_key_check') as readonly { table: string; rowid: number; parent: string }[]
  return loose.map(({ table, rowid, parent }) => ({
    about: 'link',
    say: `Row ${rowid} of ${table} points to a row of ${parent} that is not there.`,
  }))
}

/** What records say of each other; each query gives the number of the record that is wrong. */
const recordRules: readonly { readonly sql: string; readonly say: (id: number) => string }[] = [
  {
    sql: `SELECT newer.id FROM reading AS newer JOIN reading AS older ON older.id = newer.replaces
          WHERE newer.run <> older.run OR newer.id <= older.id`,
    say: (id) => `Reading ${id} replaces a reading of another run, or a later one.`,
  },
  {
    sql: `SELECT i.id FROM import_log AS i
          WHERE i.rows <> (SELECT count(*) FROM reading WHERE reading.run = i.run AND replaces IS NULL)`,
    say: (id) => `Import ${id} does not have as many readings as its file.`,
  },
  {
    sql: `SELECT max(id) AS id FROM tester_version GROUP BY tester HAVING max(version) <> count(*)`,
    say: (id) => `The versions of the tester of version row ${id} are not counted one by one.`,
  },
  {
    sql: `SELECT max(id) AS id FROM part_type GROUP BY type HAVING max(version) <> count(*)`,
    say: (id) => `The versions of the part type of row ${id} are not counted one by one.`,
  },
  {
    sql: `SELECT id FROM run WHERE (state = 'open') <> (finished_at IS NULL)`,
    say: (id) => `Run ${id} does not know whether it has ended.`,
  },
  {
    sql: `SELECT result.run AS id FROM result WHERE NOT EXISTS
          (SELECT 1 FROM reading WHERE reading.run = result.run AND reading.part = result.part)`,
    say: (id) => `Run ${id} has a result of a part that was never read in it.`,
  },
  {
    sql: `SELECT id FROM parameter WHERE json_extract(record, '$.symbol') IS NOT symbol
            OR json_extract(record, '$.quantity.unit') IS NOT unit
            OR abs(json_extract(record, '$.quantity.value') - value) > 1e-12 * abs(value)
            OR json_extract(record, '$.quantity.correlations') IS NULL
              AND abs(uncertainty * uncertainty - (SELECT total(pow(json_extract(one.value, '$.slope') *
                json_extract(one.value, '$.u'), 2)) FROM json_each(record, '$.quantity.budget') AS one))
                > 1e-9 * uncertainty * uncertainty`,
    say: (id) => `Parameter ${id} is listed with another number than its record holds.`,
  },
  {
    sql: `SELECT id FROM verdict WHERE json_extract(record, '$.verdict') IS NOT verdict
            OR json_extract(record, '$.symbol') IS NOT symbol
            OR (json_extract(record, '$.probability') IS NULL) <> (probability IS NULL)
            OR abs(json_extract(record, '$.probability') - probability) > 1e-12`,
    say: (id) => `Verdict ${id} is listed with another word than its record holds.`,
  },
  {
    sql: `SELECT newest.part AS id FROM newest WHERE NOT EXISTS
            (SELECT 1 FROM reading WHERE reading.run = newest.run AND reading.part = newest.part)
          OR EXISTS (SELECT 1 FROM result WHERE result.part = newest.part AND result.run > newest.run)`,
    say: (id) => `The newest result of part ${id} is not that of its newest run.`,
  },
  {
    sql: `SELECT id FROM curve WHERE EXISTS (SELECT 1 FROM json_each(points) AS one
            WHERE json_type(one.value, '$.values') IS NOT 'object' OR json_type(one.value, '$.row') IS NOT 'integer')`,
    say: (id) => `Curve ${id} holds a point that is none.`,
  },
  {
    sql: `SELECT id FROM found WHERE json_array_length(parts) = 0 OR EXISTS (SELECT 1 FROM json_each(parts) AS one
            WHERE json_type(one.value, '$.part') IS NOT 'text'
              OR coalesce(json_type(one.value, '$.value'), '') NOT IN ('real', 'integer')
              OR coalesce(json_extract(one.value, '$.u') >= 0, 0) = 0)`,
    say: (id) => `Record ${id} of a tester as found holds a part that is none.`,
  },
  {
    sql: `SELECT part AS id FROM reserved JOIN job ON job.id = reserved.job
            LEFT JOIN position ON position.id = reserved.position
          WHERE job.removed = 1 OR position.job <> reserved.job`,
    say: (id) => `Part ${id} is reserved for a job that was taken away, or a position of another job.`,
  },
  {
    sql: `SELECT fitted_part AS id FROM position JOIN job ON job.id = position.job
          WHERE job.removed = 0 AND fitted_part IS NOT NULL GROUP BY fitted_part HAVING count(*) > 1`,
    say: (id) => `Part ${id} is fitted in two positions.`,
  },
  {
    sql: `SELECT part.id FROM part LEFT JOIN touched ON touched.part = part.id
            LEFT JOIN part_text ON part_text.rowid = part.id
          WHERE touched.part IS NULL OR part_text.tag IS NOT part.tag OR part_text.note IS NOT part.note`,
    say: (id) => `Part ${id} is not found by its words.`,
  },
]

const recordFindings = (driver: Driver): Finding[] =>
  recordRules.flatMap(({ sql, say }) =>
    driver
      .prepare<[], { id: number }>(sql)
      .all()
      .map(({ id }): Finding => ({ about: 'record', say: say(id) })),
  )
