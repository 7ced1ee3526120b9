import { checkStandards, readings, results, runHeads } from '#book'
import { FaultError } from '#core/fault'
import {
  type CheckStandard,
  type ControlOptions,
  type DriftBounds,
  readCheckStandards,
  type Steadiness,
  steadiness,
} from '#core/upkeep'
import { type Sheet, steadinessSentence, steadinessSheet } from '#report/sheet'
import { type Bench, bookOf } from './bench.ts'

/** How check standards are looked at. */
export interface SteadinessWishes {
  readonly options?: Partial<ControlOptions>
  /** Bounds, once the unit is known. */
  readonly bounds: (unit: CheckStandard['unit']) => DriftBounds
}

/** What check standards say of a tester, with the sheet that says it. */
export interface Steadied {
  readonly standards: readonly Steadiness[]
  readonly sheet: Sheet
}

/** Charts the check standards of a table. @throws {FaultError} every fault of the table; too few readings */
export const steadinessOfFile = (
  input: { readonly text: string; readonly file: string },
  wishes: SteadinessWishes,
): Steadied => chart('Check standards', readCheckStandards(input.text, input.file), wishes)

/** One symbol of one part, over all its runs on a tester. */
export interface KeptStandard {
  /** Id of the tester. */
  readonly tester: string
  readonly part: string
  /** Letter symbol: h_FE, I_CEO. */
  readonly symbol: string
}

/** Charts what the book knows of a check standard. @throws {FaultError} `not-found`; too few runs */
export async function steadinessOfKept(
  bench: Bench,
  wanted: KeptStandard,
  wishes: SteadinessWishes,
): Promise<Steadied> {
  const standard = await keptStandard(bench, wanted)
  return chart(`${wanted.tester}, by ${wanted.part}`, [standard], wishes)
}

async function keptStandard(bench: Bench, wanted: KeptStandard): Promise<CheckStandard> {
  const found = await standardReadings(bench, wanted)
  if (found !== undefined) return found
  const { tester, part, symbol } = wanted
  throw new FaultError({
    code: 'not-found',
    what: `${symbol} of ${part} on the tester`,
    name: tester,
    near: [],
    mend: `"germane part show ${part}" shows what was read of it.`,
  })
}

/** What the book knows of a check standard; nothing where it was never read on the tester. */
export async function standardReadings(
  bench: Bench,
  { tester, part, symbol }: KeptStandard,
): Promise<CheckStandard | undefined> {
  const book = bookOf(bench)
  const heads = new Map((await runHeads(book, { part })).filter((r) => r.tester === tester).map((r) => [r.id, r]))
  const dates = new Map<number, string>()
  for (const { run, reading } of await readings(book, { part }))
    if (reading.at !== undefined && !dates.has(run)) dates.set(run, reading.at)
  const found = (await results(book, { part })).flatMap(({ run, result }) => {
    const head = heads.get(run)
    const own = result.parameters.filter((p) => p.symbol === symbol && p.standing === 'measured')
    if (head === undefined || own.length === 0) return []
    const at = dates.get(run) ?? head.startedAt
    return [{ unit: own[0]!.quantity.unit, at, values: own.map((p) => p.quantity.value) }]
  })
  return found.length === 0 ? undefined : { part, unit: found[0]!.unit, groups: byDay(found) }
}

/** Readings of one day are a group. */
function byDay(found: readonly { readonly at: string; readonly values: readonly number[] }[]): CheckStandard['groups'] {
  const days = new Map<string, number[]>()
  for (const { at, values } of found) {
    const day = at.slice(0, 10)
    days.set(day, [...(days.get(day) ?? []), ...values])
  }
  return [...days].map(([at, values]) => ({ at, values }))
}

/** Charts all check standards of a tester that the book names. @throws {FaultError} `not-found` none is named */
export async function steadinessOfNamed(bench: Bench, tester: string, wishes: SteadinessWishes): Promise<Steadied> {
  const named = await checkStandards(bookOf(bench), tester)
  if (named.length === 0)
    throw new FaultError({
      code: 'not-found',
      what: 'check standard of the tester',
      name: tester,
      near: [],
      mend: 'Name one: --part CS-1 --symbol h_FE --keep.',
    })
  const charts = []
  for (const one of named) {
    const bounds = (unit: CheckStandard['unit']): DriftBounds => ({ ...one, ...wishes.bounds(unit) })
    charts.push(await steadinessOfKept(bench, one, { ...wishes, bounds }))
  }
  const blocks = charts.flatMap((c) => c.sheet.blocks)
  const [first] = charts
  return {
    standards: charts.flatMap((c) => c.standards),
    sheet: {
      ...first!.sheet,
      title: `${tester}, by its check standards`,
      lead: charts.flatMap((c) => c.sheet.lead),
      blocks,
      notes: [...new Set(charts.flatMap((c) => c.sheet.notes))],
    },
  }
}

function chart(title: string, standards: readonly CheckStandard[], wishes: SteadinessWishes): Steadied {
  const bounds = wishes.bounds(standards[0]!.unit)
  const all = standards.map((s) => steadiness(s, wishes.options, bounds))
  return { standards: all, sheet: steadinessSheet(title, all, bounds) }
}

/** The document of check standards, for scripts. */
export const steadinessDocument = ({ standards }: Steadied) => ({
  format: 'germane/steadiness/1' as const,
  standards: standards.map((s) => {
    const { lineAt: _, ...drift } = s.drift
    return { part: s.part, unit: s.unit, word: s.word, say: steadinessSentence(s), chart: s.chart, drift }
  }),
})
