import type { Conditions, Limit } from '#core/device'
import { partWord, type Verdict, type VerdictWord } from '#core/judge'
import { standardUncertainty } from '#core/quantity'
import { allFormulas, type Doubt, type Parameter, type PartResult } from '#core/reduce'
import { bestInterval, type IntervalMethod, type Working, working, workingText } from '#core/uncertainty'
import type { Judged, Reduced } from './measure.ts'

/** One parameter as scripts read it. Documented in docs/reference/json.md; new keys may come, none changes. */
export interface ParameterEntry {
  readonly part: string
  readonly type?: string
  readonly symbol: string
  readonly value: number
  readonly standardUncertainty: number
  readonly unit: string
  readonly interval95: readonly [number, number]
  /** Which way the interval was found: see IntervalMethod of core/uncertainty. */
  readonly method: IntervalMethod
  /** Temperature it holds at, degC, and its standard uncertainty. */
  readonly temperature: number
  readonly temperatureUncertainty: number
  readonly conditions: Conditions
  readonly standing: Parameter['standing']
  readonly budget: readonly { readonly cause: string; readonly label: string; readonly contribution: number }[]
  /** Formula with its source; left out for a value as read. */
  readonly formula?: { readonly id: string; readonly version: number; readonly text: string; readonly source: string }
  readonly working: readonly string[]
  readonly doubts: readonly string[]
}

/** What became of one part. */
export interface PartEntry {
  readonly part: string
  readonly type?: string
  readonly state: PartResult['state']
  readonly doubts: readonly string[]
  /** What the two leakages say about each other. */
  readonly leakagePair?: string
  /** The worst of its verdicts; only where it was judged. */
  readonly verdict?: VerdictWord
}

export interface VerdictEntry {
  readonly part: string
  readonly type?: string
  readonly symbol: string
  readonly limit: Omit<Limit, 'at'>
  /** Conditions of the limit. */
  readonly conditions: Conditions
  /** Conditions of the measurement. */
  readonly measuredAt: Conditions
  readonly verdict: VerdictWord
  readonly probability: number | null
  /** Value that was compared, after any carry-over. */
  readonly compared?: { readonly value: number; readonly standardUncertainty: number; readonly unit: string }
  readonly why: string
  readonly settle: string | null
  /** Where the limit comes from. */
  readonly source: string
}

export interface ParametersDocument {
  readonly format: 'germane/parameters/1'
  readonly tester: { readonly id: string; readonly name: string }
  readonly parts: readonly PartEntry[]
  readonly parameters: readonly ParameterEntry[]
  readonly notes: readonly string[]
}

export interface VerdictsDocument extends Omit<ParametersDocument, 'format'> {
  readonly format: 'germane/verdicts/1'
  readonly rule: Judged['rule']
  readonly verdicts: readonly VerdictEntry[]
}

const says = (doubts: readonly Doubt[]): readonly string[] => doubts.map((d) => d.say)

export function parameterEntry(p: Parameter): ParameterEntry {
  const w = working(p.quantity, allFormulas)
  const { interval, method } = bestInterval(p.quantity, allFormulas)
  return {
    part: p.part,
    ...(p.type === undefined ? {} : { type: p.type }),
    symbol: p.symbol,
    value: p.quantity.value,
    standardUncertainty: standardUncertainty(p.quantity),
    unit: p.quantity.unit,
    interval95: interval,
    method,
    temperature: p.temperatureC,
    temperatureUncertainty: p.temperatureU,
    conditions: p.conditions,
    standing: p.standing,
    budget: w.budget.map((l) => ({ cause: l.cause, label: l.label, contribution: Math.abs(l.contribution) })),
    ...formulaOf(w),
    working: workingText(w),
    doubts: says(p.doubts),
  }
}

function formulaOf(w: Working): Pick<ParameterEntry, 'formula'> {
  if (w.formula === undefined) return {}
  const { id, version, text, source } = w.formula
  return { formula: { id, version, text, source: source.title } }
}

/** The word for a whole part: the worst of its verdicts; a shorted or open part does not conform. */
export const partVerdict = (result: PartResult, own: readonly Verdict[]): VerdictWord | undefined =>
  partWord(result.state, own)

/** The verdicts of each part; a part without any has an empty list. */
export function verdictsByPart(judged: Pick<Judged, 'results' | 'verdicts'>): ReadonlyMap<string, readonly Verdict[]> {
  const byPart = new Map<string, Verdict[]>(judged.results.map((r) => [r.part, []]))
  for (const v of judged.verdicts) byPart.get(v.part)?.push(v)
  return byPart
}

function partEntry(result: PartResult): PartEntry {
  return {
    part: result.part,
    ...(result.type === undefined ? {} : { type: result.type }),
    state: result.state,
    doubts: says(result.doubts),
    ...(result.pair === undefined ? {} : { leakagePair: result.pair.say }),
  }
}

function verdictEntry(v: Verdict, type: string | undefined): VerdictEntry {
  const { at, ...limit } = v.limit
  return {
    part: v.part,
    ...(type === undefined ? {} : { type }),
    symbol: v.symbol,
    limit,
    conditions: at,
    measuredAt: v.conditions,
    verdict: v.verdict,
    probability: v.probability ?? null,
    ...(v.compared === undefined
      ? {}
      : {
          compared: {
            value: v.compared.value,
            standardUncertainty: standardUncertainty(v.compared),
            unit: v.compared.unit,
          },
        }),
    why: v.why,
    settle: v.settle ?? null,
    source: v.source,
  }
}

/** What `germane reduce --json` prints. */
export function parametersDocument(r: Reduced): ParametersDocument {
  return {
    format: 'germane/parameters/1',
    tester: { id: r.tester.id, name: r.tester.name },
    parts: r.results.map(partEntry),
    parameters: r.results.flatMap((p) => p.parameters.map(parameterEntry)),
    notes: r.notes,
  }
}

/** What `germane judge --json` prints. */
export function verdictsDocument(j: Judged): VerdictsDocument {
  const byPart = verdictsByPart(j)
  return {
    ...parametersDocument(j),
    format: 'germane/verdicts/1',
    rule: j.rule,
    parts: j.results.map((r) => {
      const verdict = partVerdict(r, byPart.get(r.part) ?? [])
      return { ...partEntry(r), ...(verdict === undefined ? {} : { verdict }) }
    }),
    verdicts: j.results.flatMap((r) => (byPart.get(r.part) ?? []).map((v) => verdictEntry(v, r.type))),
  }
}
