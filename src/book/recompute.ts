import type { Verdict } from '#core/judge'
import { standardUncertainty } from '#core/quantity'
import type { Parameter, PartResult } from '#core/reduce'
import type { Reading, Tester } from '#core/tester'
import type { Book } from './book.ts'
import { fromJson, isSame } from './json.ts'
import { readingsIn } from './reading.ts'
import { type Outcome, resultsIn } from './result.ts'
import { type Run, runByNumber } from './run.ts'
import { read } from './transaction.ts'

/** All that results are computed from. */
export interface Basis {
  readonly run: Run
  /** The tester in the version the run was taken with. */
  readonly tester: Tester
  /** Readings that count: those that no correction has replaced. */
  readonly readings: readonly Reading[]
  /** What is stored for this run; verdicts carry their limit and rule. */
  readonly stored: readonly Outcome[]
}

/** A result computed again; without verdicts only the parameters are compared. */
export interface Recomputed {
  readonly result: PartResult
  readonly verdicts?: readonly Verdict[]
}

export type Recompute = (basis: Basis) => readonly Recomputed[] | Promise<readonly Recomputed[]>

/** How far a recomputed number may lie from the stored one, relative: machines differ in the last digits. */
export const recomputeTolerance = 1e-6

/** Computes again what is stored and says where it differs. */
export async function staleResults(
  book: Book,
  recompute: Recompute,
): Promise<{ readonly compared: number; readonly differ: readonly string[] }> {
  const measured = await read(book, ({ db }) =>
    db.selectFrom('result').select('run').distinct().orderBy('run').execute(),
  )
  const differ: string[] = []
  let compared = 0
  for (const { run } of measured) {
    const basis = await basisOf(book, run)
    const again = new Map((await recompute(basis)).map((one) => [one.result.part, one]))
    for (const stored of basis.stored) {
      compared++
      const said = difference(stored, again.get(stored.result.part))
      if (said !== undefined) differ.push(`Run ${run}, part ${stored.result.part}: ${said}`)
    }
  }
  return { compared, differ }
}

/** What the results of a run are computed from, read from one state of the book. */
export const basisOf = (book: Book, id: number): Promise<Basis> =>
  read(book, async (work) => {
    const run = await runByNumber(work.db, id)
    const version = await work.db
      .selectFrom('tester_version')
      .select('parsed')
      .where('tester', '=', run.tester)
      .where('version', '=', run.testerVersion)
      .executeTakeFirstOrThrow()
    const readings = (await readingsIn(work, { run: id, current: true })).map((one) => one.reading)
    const stored = await resultsIn(work, { run: id })
    return { run, tester: fromJson<Tester>(version.parsed), readings, stored }
  })

function difference(stored: Outcome, again: Recomputed | undefined): string | undefined {
  if (again === undefined) return 'a result is stored, and computing it again gives none.'
  if (stored.result.state !== again.result.state)
    return `stored as ${stored.result.state}, computed again as ${again.result.state}.`
  return (
    firstOther(
      'parameter',
      stored.result.parameters.map(parameterEssence),
      again.result.parameters.map(parameterEssence),
    ) ??
    (again.verdicts === undefined
      ? undefined
      : firstOther('verdict', stored.verdicts.map(verdictEssence), again.verdicts.map(verdictEssence)))
  )
}

interface Essence {
  readonly symbol: string
  readonly says: string
  /** What must be the same; numbers within `recomputeTolerance`. */
  readonly holds: unknown
}

function parameterEssence(parameter: Parameter): Essence {
  const { symbol, quantity, conditions, temperatureC, standing, doubts } = parameter
  const { value, unit, origin } = quantity
  const formula = origin.kind === 'derived' ? `${origin.formula} version ${origin.version}` : origin.kind
  const u = standardUncertainty(quantity)
  const codes = doubts.map((doubt) => doubt.code)
  return {
    symbol,
    says: `${value} ${unit} with u = ${u}, by ${formula}`,
    holds: { symbol, value, unit, u, formula, conditions, temperatureC, standing, codes },
  }
}

function verdictEssence(verdict: Verdict): Essence {
  const { symbol, verdict: word, probability, limit, rule } = verdict
  return {
    symbol,
    says: `${word}, probability ${probability ?? 'none'}`,
    holds: { symbol, word, probability, limit, rule },
  }
}

function firstOther(what: string, stored: readonly Essence[], again: readonly Essence[]): string | undefined {
  if (stored.length !== again.length)
    return `${stored.length} ${what}s are stored, computing again gives ${again.length}.`
  for (const [i, one] of stored.entries()) {
    const other = again[i] as Essence
    if (isSame(one.holds, other.holds, recomputeTolerance)) continue
    return `${what} ${one.symbol} is stored as ${one.says}; computed again it is ${other.symbol}: ${other.says}.`
  }
  return undefined
}
