import type { Book } from './book.ts'
import { withoutNulls } from './json.ts'
import { noRun, type RunState } from './run.ts'
import { read, type Work } from './transaction.ts'

/** A run in a list: what it is and how far, without its sheet. */
export interface RunHead {
  readonly id: number
  readonly tester: string
  /** Name of the tester in that version. */
  readonly testerName: string
  readonly testerVersion: number
  /** Type number; left out for unmarked parts and mixed lots. */
  readonly type?: string
  /** Title of its sheet. */
  readonly title?: string
  readonly note?: string
  readonly state: RunState
  readonly startedAt: string
  readonly finishedAt?: string
  readonly ambientC?: number
  readonly ambientU?: number
  /** Parts and readings so far; corrected readings do not count. */
  readonly parts: number
  readonly readings: number
  /** Part that was read last. */
  readonly lastPart?: string
}

export interface RunHeadFilter {
  readonly id?: number
  readonly state?: RunState
  /** Tag of a part that was read in them. */
  readonly part?: string
  readonly limit?: number
}

type Row = { [K in keyof RunHead]-?: RunHead[K] | null }

/** Corrected readings of a run; by an index of its own, since they are few. */
const corrected = 'SELECT c.replaces FROM reading AS c WHERE c.run = run.id AND c.replaces IS NOT NULL'

const select = `
SELECT run.id, tester_version.tester, json_extract(tester_version.parsed, '$.name') AS testerName,
  tester_version.version AS testerVersion, json_extract(run.part_type, '$.type') AS type,
  json_extract(run.sheet, '$.title') AS title, run.note, run.state, run.started_at AS startedAt,
  run.finished_at AS finishedAt, run.ambient AS ambientC, run.ambient_u AS ambientU,
  (SELECT count(DISTINCT r.part) FROM reading AS r WHERE r.run = run.id AND r.id NOT IN (${corrected})) AS parts,
  (SELECT count(*) FROM reading AS r WHERE r.run = run.id) - (SELECT count(*) FROM (${corrected})) AS readings,
  (SELECT part.tag FROM part WHERE part.id = (SELECT l.part FROM reading AS l WHERE l.id =
    (SELECT max(m.id) FROM reading AS m WHERE m.run = run.id))) AS lastPart
FROM run JOIN tester_version ON tester_version.id = run.tester_version`

/** Runs in short, newest first. */
export const runHeads = (book: Book, filter: RunHeadFilter = {}): Promise<RunHead[]> =>
  read(book, async ({ driver }) => {
    const { id = null, state = null, part = null, limit = -1 } = filter
    return driver
      .prepare<unknown[], Row>(
        `${select} WHERE (@id IS NULL OR run.id = @id) AND (@state IS NULL OR run.state = @state) AND (@part IS NULL OR run.id IN (
           SELECT run FROM reading WHERE part = (SELECT id FROM part WHERE tag = @part)))
         ORDER BY run.id DESC LIMIT @limit`,
      )
      .all({ id, state, part, limit })
      .map((row) => withoutNulls(row) as RunHead)
  })

/** One run in short. @throws {FaultError} `not-found` */
export const runHead = (book: Book, id: number): Promise<RunHead> => read(book, async (work) => runHeadIn(work, id))

function runHeadIn({ driver }: Work, id: number): RunHead {
  const row = driver.prepare<[number], Row>(`${select} WHERE run.id = ?`).get(id)
  if (row === undefined) throw noRun(id)
  return withoutNulls(row) as RunHead
}

/** How often each version of a tester was used, newest version first. */
export const testerVersions = (
  book: Book,
  tester: string,
): Promise<{ readonly version: number; readonly at: string; readonly runs: number }[]> =>
  read(book, async ({ driver }) =>
    driver
      .prepare<[string], { version: number; at: string; runs: number }>(
        `SELECT version, at, (SELECT count(*) FROM run WHERE run.tester_version = tester_version.id) AS runs
         FROM tester_version WHERE tester = ? ORDER BY version DESC`,
      )
      .all(tester),
  )

/** Versions of one of the user's own part types, newest first. */
export const partTypeVersions = (
  book: Book,
  type: string,
): Promise<{ readonly version: number; readonly at: string }[]> =>
  read(book, async ({ driver }) =>
    driver
      .prepare<[string], { version: number; at: string }>(
        'SELECT version, at FROM part_type WHERE type = ? ORDER BY version DESC',
      )
      .all(type),
  )

/** The newest run that parts were read in, by tag; parts that were never read are left out. */
export const newestRuns = (book: Book, tags: Iterable<string>): Promise<Map<string, number>> =>
  read(book, async ({ driver }) => {
    const newest = driver
      .prepare<[string], number | null>(
        `SELECT max(run) FROM reading WHERE part = (SELECT id FROM part WHERE tag = ?)
           AND NOT EXISTS (SELECT 1 FROM reading AS newer WHERE newer.replaces = reading.id)`,
      )
      .pluck()
    const found = new Map<string, number>()
    for (const tag of tags) {
      const run = newest.get(tag)
      if (typeof run === 'number') found.set(tag, run)
    }
    return found
  })
