import type { PartType } from '#core/device'
import type { Verdict } from '#core/judge'
import type { Doubt } from '#core/reduce'
import type { Reading } from '#core/tester'
import { plainFigure } from '#report/typeset'
import { intervalOf } from './interval.ts'
import type { JudgedParameter, JudgedPart } from './judged.ts'
import type { DoubtLine, PartSection, ReadingRow, Result, VerdictLine, WorkingModel } from './model.ts'
import { dateText } from './report-input.ts'
import { bySymbol, kindText, parameterName } from './trade.ts'
import { boundsOf, conditionList, counted, probabilityText, sentenceList, temperatureFigure } from './wording.ts'
import { partWorkings } from './working-model.ts'

/** What a section needs to know beside its part. */
export interface SectionContext {
  readonly id: string
  readonly partType: PartType | undefined
  readonly readings: readonly Reading[]
  readonly hasWorkings: boolean
}

/** All about one part. */
export function partSection(part: JudgedPart, context: SectionContext): PartSection {
  const { result } = part
  const sorted = [...part.parameters].sort((a, b) => bySymbol(a.parameter.symbol, b.parameter.symbol))
  const trouble = context.partType?.trouble
  const ids = sorted.map((_, i) => `${context.id}-${i + 1}`)
  const wanted = sorted.map(({ parameter }, i) => ({ ...parameter, id: ids[i]! }))
  const workings = partWorkings(context.hasWorkings ? wanted : [], `${context.id}-w`)
  return {
    id: context.id,
    tag: result.part,
    type: result.type ?? 'unknown',
    kind: kindText(context.partType),
    outcome: part.outcome,
    lead: partLead(part),
    ...(trouble === undefined ? {} : { trouble }),
    doubts: partDoubts(part),
    results: saidOnce(sorted.map((p, i) => resultOf(p, ids[i]!, workings.own.get(ids[i]!)))),
    shared: workings.shared,
    untested: [...new Set(part.untested.map((v) => v.symbol))].sort(bySymbol),
    readings: context.readings.map(readingRow),
  }
}

/** Leaves out of each result the doubts that one of the same symbol before it has told already. */
function saidOnce(results: readonly Result[]): readonly Result[] {
  const told = new Set<string>()
  return results.map((r) => {
    const doubts = r.doubts.filter((d) => !told.has(`${r.symbol} ${d.say}`))
    for (const d of doubts) told.add(`${r.symbol} ${d.say}`)
    return { ...r, doubts }
  })
}

/** How a part came out, in a sentence. */
export function partLead(part: JudgedPart): string {
  const what = sentenceList(part.because)
  const held = part.parameters.reduce((n, p) => n + p.verdicts.length, 0)
  switch (part.outcome) {
    case 'short':
      return 'Shorted: nothing was measured after the short check.'
    case 'open':
      return 'Open: no current flows through it, so nothing could be measured.'
    case 'conforms':
      return `Meets ${held === 1 ? 'the limit' : 'the limits'} it could be held against.`
    case 'does not conform':
      return `Outside its published limit: ${what}.`
    case 'undecided':
      return `The readings leave open whether it meets its limit: ${what}.`
    case 'not comparable':
      return `${counted(held, 'limit')} published, but none at conditions this test can be compared with: ${what}.`
    case 'not judged':
      return 'Measured, and not held against any limit.'
  }
}

/** Doubts about the part as a whole, and what its two leakages say of each other. */
function partDoubts({ result }: JudgedPart): readonly DoubtLine[] {
  const { pair, doubts } = result
  const isTold = pair === undefined || doubts.some((d) => d.say === pair.say)
  return [...doubts.map(doubtLine), ...(isTold ? [] : [{ weight: 'notice' as const, say: pair.say }])]
}

const doubtLine = ({ weight, say }: Doubt): DoubtLine => ({ weight, say })

function resultOf({ parameter, verdicts }: JudgedParameter, id: string, working: WorkingModel | undefined): Result {
  const q = parameter.quantity
  return {
    id,
    symbol: parameter.symbol,
    name: parameterName(parameter.symbol),
    figure: intervalOf(q).figure,
    standing: parameter.standing,
    conditions: conditionList(parameter.conditions, 3).filter((c) => c.symbol !== 'T'),
    temperature: temperatureFigure(parameter.temperatureC, parameter.temperatureU),
    verdicts: verdicts.map(verdictLine),
    doubts: parameter.doubts.map(doubtLine),
    ...(working === undefined ? {} : { working }),
  }
}

const verdictLine = (v: Verdict): VerdictLine => ({
  outcome: v.verdict,
  ...(v.probability === undefined ? {} : { probability: probabilityText(v.probability) }),
  bounds: boundsOf(v.limit),
  conditions: conditionList(v.limit.at),
  why: v.why,
  ...(v.settle === undefined ? {} : { settle: v.settle }),
  ...(v.limit.note === undefined ? {} : { note: v.limit.note }),
  source: v.source,
})

function readingRow(r: Reading): ReadingRow {
  return {
    reads: r.reads,
    seen: r.seen,
    range: [r.range, r.scale].filter((s) => s !== undefined).join(', '),
    point: r.point,
    ...(r.supplyV === undefined ? {} : { supply: plainFigure(r.supplyV, 'V') }),
    ...(r.ambientC === undefined ? {} : { ambient: temperatureFigure(r.ambientC, r.ambientU ?? 0) }),
    at: r.at === undefined ? '' : (dateText(r.at) ?? r.at),
    note: r.note ?? '',
  }
}
