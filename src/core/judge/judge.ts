import { type Limit, type PartType, provenanceText } from '#core/device'
import { FaultError } from '#core/fault'
import { isUnit, printPlain, printQuantity, type Quantity, standardUncertainty, unitText } from '#core/quantity'
import { type Doubt, gainSymbols, type Parameter } from '#core/reduce'
import { oncePer } from '#core/text'
import type { Carried } from './carried.ts'
import { carryGain } from './carry-gain.ts'
import { carryLeakage } from './carry-leakage.ts'
import { carryJunctionVoltage, carrySaturation, carrySmallSignal } from './carry-voltage.ts'
import { conformance, decide, deciding, isInside, type Tolerance, type TrialOptions } from './conformance.ts'
import type { Later } from './later.ts'
import { lowConfidence, settling } from './settle.ts'
import type { Rule, Verdict, VerdictWord } from './verdict.ts'

export interface JudgeOptions extends TrialOptions {
  readonly rule: Rule
  /** Whether limits of parameters that were not measured are listed as not comparable. */
  readonly unmeasured: boolean
}

export const judgeDefaults = {
  rule: { kind: 'guarded', probability: 0.95 },
  trials: 4_000,
  seed: 1,
  unmeasured: true,
} as const satisfies JudgeOptions

/** How a limit is held against parameters: which symbols serve, best first, and how they get to its conditions. */
interface Way {
  readonly symbols: readonly string[]
  readonly carry: (p: Parameter, limit: Limit, type: PartType) => Carried
}

const same = (symbol: string, carry: Way['carry']): readonly [string, Way] => [symbol, { symbols: [symbol], carry }]

/** Symbols of limits that can be judged from readings. */
const ways: ReadonlyMap<string, Way> = new Map([
  ['h_FE', { symbols: gainSymbols, carry: carryGain }],
  same('h_fe', carryGain),
  same('I_CEO', carryLeakage),
  same('I_CBO', carryLeakage),
  same('I_CES', carryLeakage),
  same('I_EBO', carryLeakage),
  same('I_R', carryLeakage),
  same('V_BE', carryJunctionVoltage),
  ['V_BE(on)', { symbols: ['V_BE'], carry: carryJunctionVoltage }],
  same('V_F', carryJunctionVoltage),
  same('V_CE(sat)', carrySaturation),
  same('h_ie', carrySmallSignal),
  same('h_oe', carrySmallSignal),
])

/**
 * Holds parameters against every published minimum and maximum of a type; typical values are never judged.
 *
 * @param parameters of one part or several
 * @param type the published record
 * @returns verdicts part by part, in the order of the record
 * @throws {FaultError} `out-of-domain` where the rule asks a probability outside 0.5 to 1
 */
export function judge(
  parameters: readonly Parameter[],
  type: PartType,
  options: Partial<JudgeOptions> = {},
): readonly Verdict[] {
  const o: JudgeOptions = { ...judgeDefaults, ...options }
  requireRule(o.rule)
  const settings = { ...o, turnsAt: o.rule.kind === 'simple' ? 0.5 : o.rule.probability }
  const limits = type.limits.filter((l) => ways.has(l.symbol) && (l.min !== undefined || l.max !== undefined))
  const parts = new Map<string, Parameter[]>()
  for (const p of parameters) {
    const own = parts.get(p.part)
    if (own === undefined) parts.set(p.part, [p])
    else own.push(p)
  }
  return [...parts].flatMap(([part, own]) => limits.flatMap((limit) => againstLimit(part, own, limit, type, settings)))
}

function requireRule(rule: Rule): void {
  if (rule.probability > 0.5 && rule.probability < 1) return
  if (rule.kind === 'simple') return
  throw new FaultError({
    code: 'out-of-domain',
    name: 'probability of the rule',
    value: rule.probability,
    allowed: 'above 0.5 and below 1',
  })
}

interface Candidate {
  readonly parameter: Parameter
  readonly at: Carried
}

function againstLimit(
  part: string,
  own: readonly Parameter[],
  limit: Limit,
  type: PartType,
  o: JudgeOptions,
): readonly Verdict[] {
  const way = ways.get(limit.symbol)!
  const measured = own.filter((p) => p.standing === 'measured' && way.symbols.includes(p.symbol))
  const head = { part, symbol: limit.symbol, limit, rule: o.rule, source: provenanceText(type.provenance) }
  if (measured.length === 0) return o.unmeasured ? [unmeasured(head)] : []
  return [verdictOf(head, bestCandidate(measured, limit, type, way), type, o)]
}

/** The parameter that serves best, carried to the limit. Later symbols are not tried where an earlier one serves whole. */
function bestCandidate(measured: readonly Parameter[], limit: Limit, type: PartType, way: Way): Candidate {
  let best: Candidate | undefined
  for (const symbol of way.symbols) {
    for (const parameter of measured) {
      if (parameter.symbol !== symbol) continue
      const candidate = { parameter, at: way.carry(parameter, limit, type) }
      if (best === undefined || isBetter(candidate, best, way.symbols)) best = candidate
    }
    if (best?.at.kind === 'at' && nonsenseOf(best.parameter) === undefined) break
  }
  return best!
}

type Head = Pick<Verdict, 'part' | 'symbol' | 'limit' | 'rule' | 'source'>

const unmeasured = (head: Head): Verdict => ({
  ...head,
  conditions: {},
  verdict: 'not comparable',
  why: `${head.symbol} was not measured.`,
  settle: wantedText(head.limit),
})

/** What to measure for each limit. */
const wantedText = oncePer((limit: Limit) => `Measure ${limit.symbol}${atText(limit)}.`)

function atText(limit: Limit): string {
  const all = Object.entries(limit.at).map(([k, v]) => `${k} = ${printPlain(v, unitOfCondition(k))}`)
  return all.length === 0 ? '' : ` at ${all.join(', ')}`
}

function unitOfCondition(key: string) {
  if (key === 'T') return 'degC'
  if (key === 'f') return 'Hz'
  return key.startsWith('V') ? 'V' : key.startsWith('R') ? 'ohm' : 'A'
}

const kindRank = { at: 0, lower: 1, upper: 1, 'not comparable': 2 } as const

/** Free of nonsense first; then as comparable as can be; then leakage taken out; then nearest; then least doubt. */
function isBetter(b: Candidate, a: Candidate, symbols: readonly string[]): boolean {
  const keys = (c: Candidate): readonly number[] => [
    nonsenseOf(c.parameter) === undefined ? 0 : 1,
    kindRank[c.at.kind],
    symbols.indexOf(c.parameter.symbol),
    c.at.kind === 'not comparable' ? 0 : c.at.distance,
  ]
  const [kb, ka] = [keys(b), keys(a)]
  for (let i = 0; i < ka.length; i++) if (kb[i] !== ka[i]) return kb[i]! < ka[i]!
  return doubtOf(b) < doubtOf(a)
}

const doubtOf = ({ at }: Candidate): number => (at.kind === 'not comparable' ? 0 : standardUncertainty(at.quantity()))

const nonsenseOf = (p: Parameter): Doubt | undefined => p.doubts.find((d) => d.weight === 'nonsense')

function verdictOf(head: Head, c: Candidate, type: PartType, o: JudgeOptions): Verdict {
  const { parameter, at } = c
  const full = { ...head, parameter: parameter.symbol, conditions: parameter.conditions }
  if (at.kind === 'not comparable')
    return { ...full, verdict: 'not comparable', why: `Not comparable: ${at.why()}.`, settle: at.needs() }
  if (isUnit(head.limit.unit) && head.limit.unit !== at.quantity().unit)
    return {
      ...full,
      verdict: 'not comparable',
      why: `The limit is in ${head.limit.unit}, the value in ${at.quantity().unit}.`,
      settle: 'Put the unit right in the record of the type.',
    }
  const verdict = at.kind === 'at' ? whole(full, at, o) : oneSided(full, at, o)
  return guardedByDoubt(verdict, parameter, type)
}

type Full = Head & Pick<Verdict, 'conditions'> & { readonly parameter: string }

const toleranceOf = (l: Limit): Tolerance => ({
  ...(l.min === undefined ? {} : { min: l.min }),
  ...(l.max === undefined ? {} : { max: l.max }),
})

/** Value and limit side by side, and how the value came there. */
function sentence(full: Full, q: Quantity, how: readonly Later<string>[], relation = 'is'): string {
  const way = how.length === 0 ? 'measured at the conditions of the limit' : how.map((h) => h()).join('; ')
  return `${full.parameter} ${relation} ${printQuantity(q)} against ${boundsText(full.limit)} (${way})`
}

const boundsText = oncePer(({ min, max, unit }: Limit) => {
  const text = (x: number): string => (isUnit(unit) ? printPlain(x, unit, { digits: 6 }) : `${x} ${unit}`)
  if (min !== undefined && max !== undefined)
    return `${isUnit(unit) && unitText(unit) === '' ? min : text(min)} to ${text(max)}`
  return min !== undefined ? `at least ${text(min)}` : `at most ${text(max!)}`
})

/** A probability as people read it. */
function likely(p: number): string {
  if (p > 0.999) return 'above 99.9 %'
  if (p < 0.001) return 'below 0.1 %'
  return `${(100 * p).toFixed(p > 0.99 || p < 0.01 ? 1 : 0)} %`
}

function whole(full: Full, at: Extract<Carried, { kind: 'at' }>, o: JudgeOptions): Verdict {
  const tolerance = toleranceOf(full.limit)
  const quantity = at.quantity()
  const { probability, method } = conformance(quantity, tolerance, o)
  const verdict = decide(probability, quantity.value, tolerance, o.rule)
  const by = method === 'random trials' ? ', by random trials' : ''
  const why = `${sentence(full, quantity, at.how)}; the probability that it meets the limit is ${likely(probability)}${by}.`
  const open = verdict === 'undecided' ? openEnd(quantity, full.limit, tolerance, o.rule) : {}
  return { ...full, verdict, probability, method, compared: quantity, why, ...open }
}

const openEnd = (q: Quantity, limit: Limit, t: Tolerance, rule: Rule): Pick<Verdict, 'settle' | 'needU'> =>
  settling(q, limit, deciding(q.value, t, rule.probability))

/** The true value at the limit's conditions is only known to be at least, or at most, the one compared. */
function oneSided(full: Full, at: Extract<Carried, { kind: 'lower' | 'upper' }>, o: JudgeOptions): Verdict {
  const quantity = at.quantity()
  const { min, max } = full.limit
  const far = at.kind === 'lower' ? max : min
  const near = at.kind === 'lower' ? min : max
  const relation = at.kind === 'lower' ? 'is at least' : 'is at most'
  const needed = o.rule.kind === 'simple' ? 0.5 : o.rule.probability
  const inside = (t: Tolerance) => conformance(quantity, t, o)
  const end = (verdict: VerdictWord, c: ReturnType<typeof inside>): Verdict => ({
    ...full,
    verdict,
    ...c,
    compared: quantity,
    why: `${sentence(full, quantity, at.how, relation)}; that alone decides it (${likely(c.probability)}).`,
  })
  // A bound on its own side of the limit is more likely than not there: no trial would make it decide.
  if (far !== undefined) {
    const t: Tolerance = at.kind === 'lower' ? { max: far } : { min: far }
    const c = isInside(quantity.value, t) ? undefined : inside(t)
    if (c !== undefined && c.probability <= 1 - needed) return end('does not conform', c)
  } else if (near !== undefined) {
    const t: Tolerance = at.kind === 'lower' ? { min: near } : { max: near }
    const c = isInside(quantity.value, t) ? inside(t) : undefined
    if (c !== undefined && c.probability >= needed) return end('conforms', c)
  }
  const why = `Not comparable: ${sentence(full, quantity, at.how, relation)}, and that proves nothing.`
  return { ...full, verdict: 'not comparable', why, settle: at.needs() }
}

/** Nonsense decides nothing, and a record of low confidence fails nothing. */
function guardedByDoubt(v: Verdict, p: Parameter, type: PartType): Verdict {
  const nonsense = nonsenseOf(p)
  if (nonsense !== undefined && v.verdict !== 'not comparable')
    return { ...v, verdict: 'undecided', why: `${v.why} ${nonsense.say}`, settle: nonsense.say }
  const low = lowConfidence(type)
  if (low !== undefined && v.verdict === 'does not conform')
    return { ...v, verdict: 'undecided', why: `${v.why} ${low}`, settle: low }
  return v
}

/** Whether readings can be held against limits of a symbol at all. */
export const canJudge = (symbol: string): boolean => ways.has(symbol)
