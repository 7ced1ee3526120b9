import type { Verdict } from '#core/judge'
import type { Reading, Tester } from '#core/tester'
import { figureText, type Outcome, outcomes, plainFigure } from '#report/typeset'
import type { JudgedPart } from './judged.ts'
import type { Count, Fact } from './model.ts'
import { dateText, type ReportInput } from './report-input.ts'
import { counted, probabilityText, sentenceList, temperatureFigure } from './wording.ts'

/** What, when, with what and how warm. */
export function aboutFacts(input: ReportInput, parts: readonly JudgedPart[]): readonly Fact[] {
  const types = [...new Set(parts.map((p) => p.result.type ?? 'unknown type'))]
  const tested = testedText(input.readings ?? [])
  return [
    { name: parts.length === 1 ? 'Part' : 'Parts', text: partsText(parts, types) },
    ...(tested === undefined ? [] : [{ name: 'Read', text: tested }]),
    { name: 'Tester', text: input.tester.name, ...withDetail(testerDetail(input.tester)) },
    ...ambientFact(parts),
    ...ruleFact(input.verdicts),
    { name: 'Printed', text: dateText(input.printedAt)! },
  ]
}

const withDetail = (detail: string): { readonly detail?: string } => (detail === '' ? {} : { detail })

function partsText(parts: readonly JudgedPart[], types: readonly string[]): string {
  const some = types.slice(0, 6)
  const more = types.length - some.length
  const named = sentenceList(more === 0 ? some : [...some, `${more} more`])
  const first = parts.length === 1 ? parts[0]!.result.part : counted(parts.length, 'part')
  return types.length === 0 ? first : `${first}: ${named}`
}

/** Days between which the readings were taken. */
function testedText(readings: readonly Reading[]): string | undefined {
  const days = readings.flatMap((r) => (r.at === undefined ? [] : [r.at.slice(0, 10)])).sort()
  const first = days[0] === undefined ? undefined : dateText(days[0])
  const last = days.length === 0 ? undefined : dateText(days.at(-1)!)
  if (first === undefined || last === undefined) return undefined
  return first === last ? first : `${first} to ${last}`
}

const testerKinds = {
  needle: 'needle tester',
  digital: 'digital tester',
  display: 'tester that shows results',
} as const

function testerDetail(t: Tester): string {
  const m = t.movement
  const movement =
    m === undefined
      ? ''
      : `, movement ${figureText(plainFigure(m.fullScaleA, 'A'))}, ${figureText(plainFigure(m.coilOhm, 'ohm'))}, class ${m.classPercent}`
  return `${testerKinds[t.kind]}${movement}${t.note === undefined ? '' : `. ${t.note}`}`
}

/** Ambient temperature: the one, or from the coolest to the warmest. */
function ambientFact(parts: readonly JudgedPart[]): readonly Fact[] {
  let cool: readonly [c: number, u: number] | undefined
  let warm: readonly [c: number, u: number] | undefined
  for (const p of parts)
    for (const { temperatureC, temperatureU, standing } of p.result.parameters) {
      if (standing !== 'measured') continue
      if (cool === undefined || temperatureC < cool[0]) cool = [temperatureC, temperatureU]
      if (warm === undefined || temperatureC > warm[0]) warm = [temperatureC, temperatureU]
    }
  if (cool === undefined || warm === undefined) return []
  const low = figureText(temperatureFigure(...cool))
  const high = figureText(temperatureFigure(...warm))
  return [{ name: 'Ambient', text: low === high ? low : `${low} to ${high}` }]
}

/** The rule by which the verdicts were found. */
function ruleFact(verdicts: readonly Verdict[]): readonly Fact[] {
  const kinds = new Map(verdicts.map(({ rule }) => [`${rule.kind} ${rule.probability}`, rule]))
  const texts = [...kinds.values()].map((rule) =>
    rule.kind === 'simple'
      ? 'simple: the value alone decides'
      : `guarded: a verdict needs ${probabilityText(rule.probability)} either way, else it is undecided`,
  )
  return texts.length === 0 ? [] : [{ name: 'Rule', text: capital(texts.join('; ')) }]
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** How many parts came out which way; only those that occur. */
export function summaryCounts(parts: readonly JudgedPart[]): readonly Count[] {
  const all = new Map<Outcome, number>()
  for (const p of parts) all.set(p.outcome, (all.get(p.outcome) ?? 0) + 1)
  return outcomes.flatMap((outcome) => {
    const n = all.get(outcome)
    return n === undefined ? [] : [{ outcome, parts: n }]
  })
}
