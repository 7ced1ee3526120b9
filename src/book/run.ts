import type { Kysely } from 'kysely'
import type { PartType } from '#core/device'
import { FaultError } from '#core/fault'
import type { RunSheet } from '#core/sheet'
import type { Book } from './book.ts'
import { fromJson, toJson, withoutNulls } from './json.ts'
import type { Tables } from './tables.ts'
import { testerRow } from './tester.ts'
import { requireTime } from './time.ts'
import { read, write } from './transaction.ts'

export type RunState = 'open' | 'finished' | 'stopped'

/** One pass through a run sheet, or the readings of one file. */
export interface Run {
  readonly id: number
  /** Id of the tester. */
  readonly tester: string
  readonly testerVersion: number
  /** The part type as it was then; left out for an unknown or mixed lot. */
  readonly partType?: PartType
  readonly sheet?: RunSheet
  readonly ambientC?: number
  readonly ambientU?: number
  readonly note?: string
  readonly state: RunState
  readonly startedAt: string
  readonly finishedAt?: string
}

/** What a run starts from. */
export interface RunStart {
  /** Id of a tester in the book. */
  readonly tester: string
  /** Left out: its newest version. */
  readonly testerVersion?: number
  readonly partType?: PartType
  readonly sheet?: RunSheet
  readonly ambientC?: number
  readonly ambientU?: number
  readonly note?: string
}

export interface RunFilter {
  readonly state?: RunState
  readonly tester?: string
}

/**
 * Starts a run.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` where the book has no such tester
 */
export const startRun = (book: Book, start: RunStart, at: string): Promise<Run> =>
  write(book, async ({ db }) => {
    requireTime(at)
    return runByNumber(db, await insertRun(db, start, { state: 'open', startedAt: at }))
  })

/**
 * A run by its number.
 *
 * @throws {FaultError} `not-found`
 */
export const run = (book: Book, id: number): Promise<Run> => read(book, ({ db }) => runByNumber(db, id))

/** Runs, oldest first. */
export const runs = (book: Book, filter: RunFilter = {}): Promise<Run[]> =>
  read(book, async ({ db }) => {
    let query = runsWithTester(db).orderBy('run.id')
    if (filter.state !== undefined) query = query.where('run.state', '=', filter.state)
    if (filter.tester !== undefined) query = query.where('tester_version.tester', '=', filter.tester)
    return (await query.execute()).map(runOfRow)
  })

/**
 * Ends a run: no more readings, but corrections. Ending it again changes nothing.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found`
 */
export const finishRun = (
  book: Book,
  ended: { readonly run: number; readonly state?: 'finished' | 'stopped' },
  at: string,
): Promise<Run> =>
  write(book, async ({ db }) => {
    requireTime(at)
    const before = await runByNumber(db, ended.run)
    if (before.state !== 'open') return before
    await db
      .updateTable('run')
      .set({ state: ended.state ?? 'finished', finished_at: at })
      .where('id', '=', ended.run)
      .execute()
    return runByNumber(db, ended.run)
  })

/**
 * Lets a run stand on another version of its tester. Its results are dropped: they are computed anew from its readings.
 *
 * @param moved with what its note says from now on
 * @throws {FaultError} `not-found` the run, or that version
 */
export const moveRun = (
  book: Book,
  moved: { readonly run: number; readonly testerVersion: number; readonly note: string },
): Promise<Run> =>
  write(book, async ({ db }) => {
    const before = await runByNumber(db, moved.run)
    const version = await testerRow(db, before.tester, moved.testerVersion)
    await db
      .updateTable('run')
      .set({ tester_version: version.id, note: moved.note })
      .where('id', '=', moved.run)
      .execute()
    await db.deleteFrom('result').where('run', '=', moved.run).execute()
    return runByNumber(db, moved.run)
  })

/** Adds the row of a run and gives its number. */
export async function insertRun(
  db: Kysely<Tables>,
  start: RunStart,
  course: { readonly state: RunState; readonly startedAt: string; readonly finishedAt?: string },
): Promise<number> {
  const version = await testerRow(db, start.tester, start.testerVersion)
  const made = await db
    .insertInto('run')
    .values({
      tester_version: version.id,
      part_type: start.partType === undefined ? null : toJson(start.partType, 'part type'),
      sheet: start.sheet === undefined ? null : toJson(start.sheet, 'sheet'),
      ambient: start.ambientC ?? null,
      ambient_u: start.ambientU ?? null,
      note: start.note ?? null,
      state: course.state,
      started_at: course.startedAt,
      finished_at: course.finishedAt ?? null,
    })
    .returning('id')
    .executeTakeFirstOrThrow()
  return made.id
}

/** @throws {FaultError} `not-found` */
export async function runByNumber(db: Kysely<Tables>, id: number): Promise<Run> {
  const row = await runsWithTester(db).where('run.id', '=', id).executeTakeFirst()
  if (row !== undefined) return runOfRow(row)
  throw noRun(id)
}

export const noRun = (id: number): FaultError =>
  new FaultError({
    code: 'not-found',
    what: 'run in the book',
    name: String(id),
    near: [],
    mend: 'Runs are counted from 1 in the order in which they were started.',
  })

/** @throws {FaultError} `not-found`; `usage` where the run has ended */
export async function requireOpenRun(db: Kysely<Tables>, id: number): Promise<void> {
  const { state } = await runByNumber(db, id)
  if (state === 'open') return
  throw new FaultError({
    code: 'usage',
    problem: `Run ${id} is ${state}`,
    mend: 'Start a new run for more readings; a reading of this one can still be corrected.',
  })
}

const runsWithTester = (db: Kysely<Tables>) =>
  db
    .selectFrom('run')
    .innerJoin('tester_version', 'tester_version.id', 'run.tester_version')
    .selectAll('run')
    .select(['tester_version.tester', 'tester_version.version as testerVersion'])

type RunRow = Awaited<ReturnType<ReturnType<typeof runsWithTester>['execute']>>[number]

function runOfRow(row: RunRow): Run {
  const { id, tester, testerVersion, note, state } = row
  return {
    ...withoutNulls({ id, tester, testerVersion, note, state: state as RunState }),
    ...(row.part_type === null ? {} : { partType: fromJson<PartType>(row.part_type) }),
    ...(row.sheet === null ? {} : { sheet: fromJson<RunSheet>(row.sheet) }),
    ...withoutNulls({ ambientC: row.ambient, ambientU: row.ambient_u }),
    ...withoutNulls({ startedAt: row.started_at, finishedAt: row.finished_at }),
  }
}
