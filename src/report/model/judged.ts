import { type Conditions, conditionSymbols } from '#core/device'
import type { Verdict } from '#core/judge'
import type { Parameter, PartResult } from '#core/reduce'
import type { Outcome } from '#report/typeset'

/** A parameter with the verdicts that are about it. */
export interface JudgedParameter {
  readonly parameter: Parameter
  readonly verdicts: readonly Verdict[]
}

/** A part with its parameters judged, and how it came out. */
export interface JudgedPart {
  readonly result: PartResult
  readonly parameters: readonly JudgedParameter[]
  /** Verdicts on limits of parameters that were not measured. */
  readonly untested: readonly Verdict[]
  readonly outcome: Outcome
  /** Symbols behind an outcome that is not plain conformity. */
  readonly because: readonly string[]
}

/** Ids of the sections on the page, for the parts that have one. */
export type SectionIds = ReadonlyMap<JudgedPart, string>

/** From worst to best; a part is as good as its worst verdict, but one limit met makes it conform. */
const gravity: readonly Outcome[] = ['does not conform', 'undecided', 'conforms', 'not comparable', 'not judged']

/** The outcome that decides among several. */
export function gravest(outcomes: readonly Outcome[]): Outcome {
  return gravity.find((o) => outcomes.includes(o)) ?? 'not judged'
}

/** Puts each verdict with its parameter and finds how every part came out. */
export function judgedParts(results: readonly PartResult[], verdicts: readonly Verdict[]): readonly JudgedPart[] {
  const byPart = new Map<string, Verdict[]>()
  for (const v of verdicts) {
    const list = byPart.get(v.part)
    if (list === undefined) byPart.set(v.part, [v])
    else list.push(v)
  }
  return results.map((result) => judgedPart(result, byPart.get(result.part) ?? []))
}

function judgedPart(result: PartResult, verdicts: readonly Verdict[]): JudgedPart {
  const owners = verdicts.map((v) => ownerOf(v, result.parameters))
  const parameters = result.parameters.map((parameter) => ({
    parameter,
    verdicts: verdicts.filter((_, i) => owners[i] === parameter),
  }))
  const untested = verdicts.filter((_, i) => owners[i] === undefined)
  if (result.state !== 'measured') return { result, parameters, untested, outcome: result.state, because: [] }
  const outcome = gravest(verdicts.map((v) => v.verdict))
  const isPlain = outcome === 'conforms' || outcome === 'not judged'
  const because = isPlain ? [] : [...new Set(verdicts.filter((v) => v.verdict === outcome).map((v) => v.symbol))]
  return { result, parameters, untested, outcome, because }
}

/** Which parameter a verdict speaks of: the one it names, and of several the one measured at the same conditions. */
function ownerOf(v: Verdict, parameters: readonly Parameter[]): Parameter | undefined {
  const named = parameters.filter((p) => p.symbol === (v.parameter ?? v.symbol))
  const measured = named.filter((p) => p.standing === 'measured')
  const at = (p: Parameter): boolean => sameConditions(p.conditions, v.conditions)
  return measured.find(at) ?? named.find(at) ?? measured[0] ?? named[0]
}

const sameConditions = (a: Conditions, b: Conditions): boolean => conditionSymbols.every((s) => a[s] === b[s])
