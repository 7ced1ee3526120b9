import { moveRun, type Run, readings, runs, saveResults, tester as versionOf } from '#book'
import { printMeasured, standardUncertainty } from '#core/quantity'
import { asFoundCode, type Parameter } from '#core/reduce'
import type { Tester } from '#core/tester'
import { type Bench, bookOf } from './bench.ts'
import { evidenceAgainst, withoutEvidence } from './evidence.ts'
import { listOfRun, outcomesOf } from './keep.ts'
import { type Judged, judgeReduced, reduceList } from './measure.ts'
import { patiently } from './patience.ts'
import { type Progress, step, unwatched } from './progress.ts'

/** Which runs are to be computed anew. */
export interface RecomputeWishes {
  /** Id of the tester. */
  readonly tester: string
  /** Version of it to compute with; the newest where left out. */
  readonly version?: number
  /** Days within which runs were started. */
  readonly since?: string
  readonly until?: string
  /** Keeps what was computed; else nothing is changed. */
  readonly apply?: boolean
}

/** The number of a run that moves most, in its own standard uncertainties. */
export interface Moved {
  readonly part: string
  readonly symbol: string
  readonly before: string
  readonly after: string
}

/** What computing a run anew comes to. */
export interface RecomputedRun {
  readonly run: number
  readonly startedAt: string
  /** Version of the tester it stands on now, and the one asked for. */
  readonly from: number
  readonly to: number
  readonly parts: number
  readonly parameters: number
  /** Parameters whose value or uncertainty changes. */
  readonly changed: number
  /** Verdicts that come out differently. */
  readonly verdicts: number
  readonly most?: Moved
  /** What parts as found say against its readings; sentences, left out where there are none. */
  readonly against?: readonly string[]
}

export interface RecomputeReport {
  readonly tester: string
  readonly version: number
  readonly isApplied: boolean
  readonly runs: readonly RecomputedRun[]
}

/**
 * Computes finished runs of a tester anew with another version of it, as after a calibration. Without `apply` it only
 * says what would change. With it each run stands on that version from then on, and its note says so; the readings stay,
 * and computing with the version before brings the old results back.
 *
 * @throws {FaultError} `not-found` the tester or that version of it
 */
export async function recomputeRuns(
  bench: Bench,
  wishes: RecomputeWishes,
  progress: Progress = unwatched,
): Promise<RecomputeReport> {
  const book = bookOf(bench)
  const wanted = await versionOf(book, wishes.tester, wishes.version)
  const all = (await runs(book, { tester: wishes.tester })).filter(
    (r) => r.state !== 'open' && r.testerVersion !== wanted.version && isBetween(r, wishes),
  )
  const done: RecomputedRun[] = []
  for (const [i, run] of all.entries()) {
    step(progress, i, all.length, 'Computing runs anew')
    const was = (await versionOf(book, run.tester, run.testerVersion)).tester
    const before = await judgedWith(bench, run, was)
    const after = await judgedWith(bench, run, wanted.tester)
    done.push(compared(run, wanted.version, before, after))
    if (wishes.apply === true) await applyTo(bench, run, wanted.version, after)
    await new Promise((keep) => setImmediate(keep))
  }
  return { tester: wishes.tester, version: wanted.version, isApplied: wishes.apply === true, runs: done }
}

const isBetween = ({ startedAt }: Run, { since, until }: RecomputeWishes): boolean => {
  const day = startedAt.slice(0, 10)
  return (since === undefined || day >= since) && (until === undefined || day <= until)
}

async function judgedWith(bench: Bench, run: Run, tester: Tester): Promise<Judged> {
  const list = (await readings(bookOf(bench), { run: run.id, current: true })).map((one) => one.reading)
  return judgeReduced(reduceList(bench, listOfRun(run, tester, list, await evidenceAgainst(bench, tester))))
}

async function applyTo(bench: Bench, run: Run, version: number, after: Judged): Promise<void> {
  const book = bookOf(bench)
  const day = bench.now().slice(0, 10)
  const said = `Computed anew on ${day} with version ${version} of the tester, in place of version ${run.testerVersion}.`
  const note = run.note === undefined ? said : `${run.note}\n${said}`
  await patiently(() => moveRun(book, { run: run.id, testerVersion: version, note }))
  await patiently(() => saveResults(book, { run: run.id, outcomes: withoutEvidence(outcomesOf(after)) }, bench.now()))
}

const keyOf = (p: Parameter): string => [p.part, p.symbol, p.standing, ...p.points].join('\n')

function compared(run: Run, to: number, before: Judged, after: Judged): RecomputedRun {
  const old = new Map(before.results.flatMap((r) => r.parameters).map((p) => [keyOf(p), p]))
  const now = after.results.flatMap((r) => r.parameters)
  const moves = now.flatMap((p) => {
    const was = old.get(keyOf(p))
    return was === undefined || isSameNumber(was, p) ? [] : [{ was, is: p }]
  })
  const by = (m: (typeof moves)[number]): number =>
    Math.abs(m.is.quantity.value - m.was.quantity.value) / standardUncertainty(m.was.quantity)
  const most = moves.reduce<(typeof moves)[number] | undefined>(
    (best, m) => (best === undefined || by(m) > by(best) ? m : best),
    undefined,
  )
  const said = [...new Set(now.flatMap((p) => p.doubts.flatMap((d) => (d.code === asFoundCode ? [d.say] : []))))]
  return {
    run: run.id,
    startedAt: run.startedAt,
    from: run.testerVersion,
    to,
    parts: after.results.length,
    parameters: now.length,
    changed: moves.length,
    verdicts: after.verdicts.filter((v, i) => v.verdict !== before.verdicts[i]?.verdict).length,
    ...(most === undefined ? {} : { most: movedOf(most.was, most.is) }),
    ...(said.length === 0 ? {} : { against: said }),
  }
}

function isSameNumber(a: Parameter, b: Parameter): boolean {
  const near = (x: number, y: number): boolean => Math.abs(x - y) <= 1e-9 * Math.abs(x)
  return (
    near(a.quantity.value, b.quantity.value) && near(standardUncertainty(a.quantity), standardUncertainty(b.quantity))
  )
}

function movedOf(was: Parameter, is: Parameter): Moved {
  const text = ({ quantity }: Parameter): string =>
    printMeasured(quantity.value, standardUncertainty(quantity), quantity.unit)
  return { part: is.part, symbol: is.symbol, before: text(was), after: text(is) }
}
