import {
  type BookReading,
  finishRun,
  type RunHead,
  type RunHeadFilter,
  readings,
  run,
  runHead,
  runHeads,
  type Taken,
  takeReading,
  tester as testerVersion,
} from '#book'
import { FaultError } from '#core/fault'
import type { ReadStep, RunSheet, Step } from '#core/sheet'
import { parseShown, type Reading, readingKindOf, type Tester } from '#core/tester'
import { type Bench, bookOf, testerNamed } from './bench.ts'
import { patiently } from './patience.ts'
import { type PlanInput, planRun } from './plan.ts'
import { settleParts } from './settle-parts.ts'
import { beginRun } from './take-run.ts'

/** A run with its sheet and the readings that count. */
export interface RunStory {
  readonly run: RunHead
  readonly sheet?: RunSheet
  readonly readings: readonly BookReading[]
}

/** Plans and begins a run. @throws {FaultError} no such tester or type; wishes that make no sense */
export async function beginPlannedRun(
  bench: Bench,
  given: Omit<PlanInput, 'tester'> & { readonly tester: string; readonly note?: string },
): Promise<RunStory> {
  const known = testerNamed(bench, given.tester)
  const sheet = planRun(bench, { ...given, tester: known.tester })
  const { id } = await patiently(() => beginRun(bench, known, sheet, given.note))
  return { run: await runHead(bookOf(bench), id), sheet, readings: [] }
}

/** A run; only the readings of one part where it is named. @throws {FaultError} `not-found` */
export async function runStory(bench: Bench, id: number, part?: string): Promise<RunStory> {
  const book = bookOf(bench)
  const { sheet } = await run(book, id)
  const list = await readings(book, { run: id, current: true, ...(part === undefined ? {} : { part }) })
  return { run: await runHead(book, id), ...(sheet === undefined ? {} : { sheet }), readings: list }
}

/** How many runs are listed unless one asks for another number. */
const runsAtMost = 100

/** Runs in short, newest first. */
export const runList = (bench: Bench, filter: RunHeadFilter) =>
  runHeads(bookOf(bench), { limit: runsAtMost, ...filter })

/** A reading as it was typed in the page. */
export interface TypedReading {
  readonly clientId: string
  readonly part: string
  readonly type?: string | undefined
  /** Id of the step of the run's sheet. */
  readonly step?: string | undefined
  readonly seen: string
  readonly reads?: string | undefined
  readonly range?: string | undefined
  readonly scale?: string | undefined
  readonly point?: number | undefined
  readonly supplyV?: number | undefined
  readonly ambientC?: number | undefined
  readonly ambientU?: number | undefined
  readonly note?: string | undefined
  readonly at?: string | undefined
}

export interface TakenTyped extends Taken {
  /** How it was understood. */
  readonly echo: string
}

/**
 * Takes a reading as it was typed, once however often it is sent. Durable when the promise is kept.
 *
 * @throws {FaultError} it can't be understood; no such run or step; the run has ended
 */
export async function takeTyped(bench: Bench, id: number, typed: TypedReading): Promise<TakenTyped> {
  const book = bookOf(bench)
  const { sheet, tester, ambientC, ambientU } = await settingOf(bench, id)
  const step = typed.step === undefined ? undefined : readStep(sheet, typed.step)
  const reads = step?.reads ?? kindOf(typed.reads)
  const on = placeOnTester(tester, step, typed)
  const parsed = parseShown(typed.seen, reads, tester, on.range)
  if (!parsed.ok) throw new FaultError(parsed.faults)
  const reading: Reading = {
    part: typed.part,
    ...withoutMissing({ type: typed.type ?? sheet?.partType?.type }),
    reads,
    shown: parsed.shown,
    seen: parsed.seen,
    ...on,
    point: typed.point ?? step?.point ?? 1,
    ...withoutMissing({
      supplyV: typed.supplyV ?? step?.supplyV,
      ambientC: typed.ambientC ?? ambientC,
      ambientU: typed.ambientU ?? ambientU,
      at: typed.at ?? bench.now(),
      note: typed.note,
    }),
  }
  const taken = await patiently(() => takeReading(book, { client: typed.clientId, run: id, reading }, bench.now()))
  return { ...taken, echo: parsed.echo }
}

/** What is typed to correct a reading. */
export interface TypedCorrection extends Pick<TypedReading, 'clientId' | 'seen' | 'range' | 'supplyV' | 'note'> {
  readonly run: number
  /** Number of the reading it corrects. */
  readonly reading: number
}

/** Corrects a reading, once however often it is sent, and computes the results of its part anew where there were some. */
export async function correctTyped(bench: Bench, typed: TypedCorrection): Promise<TakenTyped> {
  const book = bookOf(bench)
  const { tester } = await settingOf(bench, typed.run)
  const old = (await readings(book, { run: typed.run })).find((one) => one.id === typed.reading)
  if (old === undefined) throw noReading(typed.reading)
  const { range: oldRange, scale: oldScale, ...about } = old.reading
  const isElsewhere = typed.range !== undefined && typed.range !== oldRange
  const on = isElsewhere ? rangeOf(tester, typed.range) : withoutMissing({ range: oldRange, scale: oldScale })
  const parsed = parseShown(typed.seen, old.reading.reads, tester, on.range)
  if (!parsed.ok) throw new FaultError(parsed.faults)
  const reading: Reading = {
    ...about,
    ...on,
    shown: parsed.shown,
    seen: parsed.seen,
    ...withoutMissing({ supplyV: typed.supplyV, note: typed.note }),
  }
  const given = { client: typed.clientId, run: typed.run, reading, replaces: typed.reading }
  const taken = await patiently(() => takeReading(book, given, bench.now()))
  if (!taken.isRepeat) await settleWhereEnded(bench, typed.run, reading.part)
  return { ...taken, echo: parsed.echo }
}

/** Computes the results of a part anew where its run has ended: then nobody else will. */
export async function settleWhereEnded(bench: Bench, id: number, part: string): Promise<void> {
  if ((await run(bookOf(bench), id)).state !== 'open') await settleParts(bench, id, [part])
}

/** Ends a run and keeps the results of all its parts. */
export async function endRunAs(bench: Bench, id: number, state: 'finished' | 'stopped') {
  await patiently(() => finishRun(bookOf(bench), { run: id, state }, bench.now()))
  return settleParts(bench, id)
}

/** What a reading is understood by: the run's sheet, tester and ambient temperature. */
async function settingOf(bench: Bench, id: number) {
  const book = bookOf(bench)
  const { sheet, tester, testerVersion: version, ambientC, ambientU } = await run(book, id)
  return { sheet, tester: sheet?.tester ?? (await testerVersion(book, tester, version)).tester, ambientC, ambientU }
}

function readStep(sheet: RunSheet | undefined, id: string): ReadStep {
  const found = sheet?.steps.find((s: Step) => s.id === id)
  if (found?.kind === 'read') return found
  throw new FaultError({ code: 'not-found', what: 'read step in the sheet of this run', name: id, near: [] })
}

function kindOf(text: string | undefined): Reading['reads'] {
  const kind = readingKindOf(text ?? '')
  if (kind.ok) return kind.reads
  const { problem, mend } = kind
  throw new FaultError({ code: 'bad-input', place: { field: 'reads' }, value: text ?? '', problem, mend })
}

/** Range and scale: those of the step, or of the range that was taken in its place. */
function placeOnTester(
  tester: Tester,
  step: ReadStep | undefined,
  typed: TypedReading,
): Pick<Reading, 'range' | 'scale'> {
  if (typed.range !== undefined && typed.range !== step?.range)
    return { ...rangeOf(tester, typed.range), ...withoutMissing({ scale: typed.scale }) }
  return withoutMissing({ range: step?.range, scale: typed.scale ?? step?.scale })
}

function rangeOf(tester: Tester, range: string | undefined): Pick<Reading, 'range' | 'scale'> {
  const scale = tester.ranges.find((r) => r.id === range)?.scale
  return withoutMissing({ range, scale })
}

type Given<T> = { [K in keyof T]?: Exclude<T[K], undefined> }

const withoutMissing = <T extends object>(given: T): Given<T> =>
  Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as Given<T>

const noReading = (id: number): FaultError =>
  new FaultError({ code: 'not-found', what: 'reading in this run', name: String(id), near: [] })
