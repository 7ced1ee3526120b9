import type { Verdict } from '#core/judge'
import { type Quantity, standardUncertainty } from '#core/quantity'
import type { Doubt, Parameter, PartResult } from '#core/reduce'
import type { Book, Driver } from './book.ts'
import { fromJson, toJson, withoutNulls } from './json.ts'
import { newestSaver, summaryOf } from './newest.ts'
import { partNumber } from './part.ts'
import { runByNumber } from './run.ts'
import { requireTime } from './time.ts'
import { read, type Work, write } from './transaction.ts'

/** What was computed for one part from the readings of one run. */
export interface Outcome {
  readonly result: PartResult
  readonly verdicts: readonly Verdict[]
}

/**
 * An outcome as the book holds it: a cache, dropped when a reading is added, and always recomputable. Each quantity has
 * its value, its budget and the id and version of its formula, but not the quantities it was derived from, which would
 * make a book of readings mostly a book of workings: the working comes from computing again.
 */
export interface BookOutcome extends Outcome {
  readonly run: number
  readonly at: string
}

export interface OutcomeFilter {
  readonly run?: number
  /** Tag of a part. */
  readonly part?: string
  readonly lot?: string
}

/**
 * Saves what was computed from a run, in place of what was saved for these parts before.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found` where the run or a part is not in the book
 */
export const saveResults = (
  book: Book,
  given: {
    readonly run: number
    readonly outcomes: readonly Outcome[]
    /** By tag, the highest number of the readings it was computed from: one that has newer ones is left out. */
    readonly upTo?: ReadonlyMap<string, number>
  },
  at: string,
): Promise<void> =>
  write(book, async (work) => {
    requireTime(at)
    await runByNumber(work.db, given.run)
    const save = saverOf(work.driver, given.run, at)
    const number = work.driver.prepare<[string], number>('SELECT id FROM part WHERE tag = ?').pluck()
    const newer = work.driver.prepare('SELECT 1 FROM reading WHERE run = ? AND part = ? AND id > ?')
    for (const outcome of given.outcomes) {
      const { part } = outcome.result
      const id = number.get(part) ?? (await partNumber(work.db, part))
      const upTo = given.upTo?.get(part)
      if (upTo === undefined || newer.get(given.run, id, upTo) === undefined) save(id, outcome)
    }
  })

/** Puts outcomes in place of those saved before. */
function saverOf(driver: Driver, run: number, at: string): (part: number, outcome: Outcome) => void {
  const drop = driver.prepare('DELETE FROM result WHERE run = ? AND part = ?')
  const addResult = driver.prepare('INSERT INTO result (run, part, type, state, doubts, at) VALUES (?, ?, ?, ?, ?, ?)')
  const addParameter = driver.prepare(
    `INSERT INTO parameter (run, part, symbol, value, uncertainty, unit, formula, version, record)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  )
  const addVerdict = driver.prepare(
    'INSERT INTO verdict (run, part, symbol, verdict, probability, record) VALUES (?, ?, ?, ?, ?, ?)',
  )
  const saveNewest = newestSaver(driver)
  return (part, { result, verdicts }) => {
    drop.run(run, part)
    saveNewest(run, part, summaryOf(result, verdicts))
    const doubts = toJson(result.doubts, `doubts of ${result.part}`)
    addResult.run(run, part, result.type ?? null, result.state, doubts, at)
    for (const parameter of result.parameters) addParameter.run(run, part, ...parameterColumns(parameter))
    for (const verdict of verdicts) {
      const record = toJson(shortVerdict(verdict), `verdict on ${verdict.symbol} of ${verdict.part}`)
      addVerdict.run(run, part, verdict.symbol, verdict.verdict, verdict.probability ?? null, record)
    }
  }
}

function parameterColumns(parameter: Parameter): readonly (string | number | null)[] {
  const { symbol, quantity } = parameter
  const { origin } = quantity
  const [formula, version] = origin.kind === 'derived' ? [origin.formula, origin.version] : [null, null]
  const record = toJson({ ...parameter, quantity: withoutInputs(quantity) }, `${symbol} of ${parameter.part}`)
  return [symbol, quantity.value, standardUncertainty(quantity), quantity.unit, formula, version, record]
}

const withoutInputs = (quantity: Quantity): Quantity =>
  quantity.origin.kind === 'derived' ? { ...quantity, origin: { ...quantity.origin, inputs: {} } } : quantity

const shortVerdict = (verdict: Verdict): Verdict =>
  verdict.compared === undefined ? verdict : { ...verdict, compared: withoutInputs(verdict.compared) }

/** What was computed and is still up to date, by run and then in the order of the parts. */
export const results = (book: Book, filter: OutcomeFilter = {}): Promise<BookOutcome[]> =>
  read(book, (work) => resultsIn(work, filter))

/** The same inside a transaction. */
export async function resultsIn({ db }: Work, filter: OutcomeFilter): Promise<BookOutcome[]> {
  let query = db
    .selectFrom('result')
    .innerJoin('part', 'part.id', 'result.part')
    .leftJoin('lot', 'lot.id', 'part.lot')
    .selectAll('result')
    .select('part.tag')
    .orderBy('result.run')
    .orderBy('result.part')
  if (filter.run !== undefined) query = query.where('result.run', '=', filter.run)
  if (filter.part !== undefined) query = query.where('part.tag', '=', filter.part)
  if (filter.lot !== undefined) query = query.where('lot.name', '=', filter.lot)
  const rows = await query.execute()
  const keys = new Set(rows.map(keyOf))
  const narrow = filter.run
  const parameters = await recordsOf<Parameter>(db, 'parameter', keys, narrow)
  const verdicts = await recordsOf<Verdict>(db, 'verdict', keys, narrow)
  return rows.map((row) => ({
    run: row.run,
    at: row.at,
    result: {
      part: row.tag,
      ...withoutNulls({ type: row.type }),
      state: row.state as PartResult['state'],
      parameters: parameters.get(keyOf(row)) ?? [],
      doubts: fromJson<Doubt[]>(row.doubts),
    },
    verdicts: verdicts.get(keyOf(row)) ?? [],
  }))
}

const keyOf = (row: { readonly run: number; readonly part: number }): string => `${row.run} ${row.part}`

async function recordsOf<T>(
  db: Work['db'],
  table: 'parameter' | 'verdict',
  keys: ReadonlySet<string>,
  run: number | undefined,
): Promise<Map<string, T[]>> {
  const found = new Map<string, T[]>()
  let query = db.selectFrom(table).select(['run', 'part', 'record']).orderBy('id')
  if (run !== undefined) query = query.where('run', '=', run)
  for (const row of await query.execute()) {
    const key = keyOf(row)
    if (!keys.has(key)) continue
    const list = found.get(key)
    if (list === undefined) found.set(key, [fromJson<T>(row.record)])
    else list.push(fromJson<T>(row.record))
  }
  return found
}
