import { acceptance, conformanceProbability, decide, guardBand, type Tolerance, type VerdictWord } from '#core/judge'
import type { Range, Tester } from '#core/tester'
import { dialShows } from './dial-part.ts'
import { type Mend, type MendWish, mendOf } from './found-mend.ts'
import type { FoundValue } from './found-table.ts'
import { protectedRange } from './protection-circuit.ts'
import { protectionDiodes } from './protection-diode.ts'
import { errorAtFullScale } from './range-budget.ts'
import type { TesterPart } from './tester-part.ts'
import { testerParts } from './tester-parts.ts'

export interface FoundOptions extends MendWish {
  /** How sure a verdict must be, as a probability (JCGM 106:2012, clause 8). */
  readonly probability: number
}

/** A verdict is asked to be 95 % sure (JCGM 106:2012, clause 8); E24 resistors of 1 % are sold everywhere (common practice). */
export const foundDefaults = { probability: 0.95, series: 'E24', tolerance: 0.01 } as const

/** What one part makes a range show too much at full scale, or the gain dial, as a part of it. */
export interface Effect {
  /** Id of the range; `gain` for the dial. */
  readonly range: string
  readonly error: number
}

/** A part that was measured, held against what it should be. */
export interface FoundPart extends FoundValue {
  /** The values that are accepted: what is allowed less the guard band on each side. */
  readonly accepted: Tolerance
  /** Probability that it lies within what is allowed. */
  readonly inside: number
  readonly word: VerdictWord
  /** What it does to each range by itself, through the network, the largest first; ranges it does not move are left out. */
  readonly effects: readonly Effect[]
  /** Left out where it conforms. */
  readonly mend?: Mend
}

/** What a range shows too much at full scale, as a part of it. */
export interface TotalError {
  readonly error: number
  /** Half-width of the interval that holds the true one with about 95 % (k = 2), class and all parts counted. */
  readonly expanded: number
}

/** A range of a needle tester as found and after mending. */
export interface FoundRange {
  readonly range: Range
  readonly before: TotalError
  readonly after: TotalError
}

/** What resistance in the wrong place costs a current range. */
export interface Resistances {
  readonly range: Range
  /** What the contact as it is makes the range show too much; left out where none stands in series with a shunt. */
  readonly byContact?: number
  /** The same for each milliohm more. */
  readonly perMilliohm?: number
  /** Voltage the leads lose at full scale, V; left out where they were not measured. */
  readonly leadV?: number
}

export interface Found {
  readonly parts: readonly FoundPart[]
  /** Parts nobody measured; their tolerance counts in the totals. */
  readonly unmeasured: readonly TesterPart[]
  readonly ranges: readonly FoundRange[]
  /** Ranges above 10 mA, where contacts and leads matter. */
  readonly resistances: readonly Resistances[]
}

/** From here on a milliohm matters (common practice), A. */
const highA = 0.01

/** Less than this, as a part of full scale, is no effect. */
const nothing = 1e-9

/**
 * What a tester is worth as it was found: each part judged, what its deviation does to every range through the tester's
 * own network, what mends it, and the total error of each range before and after.
 *
 * @see docs/how-to/as-found.md
 */
export function asFound(tester: Tester, values: readonly FoundValue[], o: FoundOptions): Found {
  const all = testerParts(tester)
  const parts = values.map((v) => foundPart(tester, v, o))
  const states = all.map((part) => stateOf(part, parts))
  const cost = diodeCost(tester)
  const before = totals(tester, states, (s) => s.before, cost)
  const after = totals(tester, states, (s) => s.after, cost)
  const ranges = needleRanges(tester)
  const there = changed(tester, states, (s) => s.before)
  return {
    parts,
    unmeasured: all.filter((p) => !parts.some((f) => f.part.id === p.id)),
    ranges: ranges.map((range, i) => ({ range, before: before[i]!, after: after[i]! })),
    resistances: ranges
      .filter((r) => r.measures === 'current' && r.fullScale >= highA * (1 - 1e-9))
      .map((r) => resistancesOf(there, r, parts)),
  }
}

function foundPart(tester: Tester, v: FoundValue, o: FoundOptions): FoundPart {
  const { part, value, u } = v
  const inside = conformanceProbability(value, u, part.allowed)
  const word = decide(inside, value, part.allowed, { kind: 'guarded', probability: o.probability })
  return {
    ...v,
    accepted: acceptance(part.allowed, guardBand(u, o.probability)),
    inside,
    word,
    effects: effectsOf(tester, part, value),
    ...(word === 'conforms' ? {} : { mend: mendOf(part, value, o) }),
  }
}

/** Ranges whose network is known. */
const needleRanges = (t: Tester): readonly Range[] =>
  t.movement === undefined ? [] : t.ranges.filter((r) => r.circuit.kind !== 'stated' && r.circuit.kind !== 'unknown')

/** Errors of the needle ranges at full scale, at the temperature the coil is stated for. */
const errorsOf = (t: Tester): readonly number[] =>
  needleRanges(t).map((r) => errorAtFullScale(t.movement!, r, t.movement!.atC))

function effectsOf(tester: Tester, part: TesterPart, value: number): readonly Effect[] {
  const proper = part.nominal === undefined ? tester : part.change(tester, part.nominal)
  const base = errorsOf(proper)
  const with_ = errorsOf(part.change(proper, value))
  const gain = { range: 'gain', error: dialShows(proper, part.change(proper, value)) - 1 }
  return [...needleRanges(tester).map((r, i) => ({ range: r.id, error: with_[i]! - base[i]! })), gain]
    .filter((e) => Math.abs(e.error) > nothing)
    .sort((a, b) => Math.abs(b.error) - Math.abs(a.error))
}

interface Known {
  readonly value: number
  readonly u: number
}

/** A part as found and after mending; nothing where only a limit is known of it. */
interface State {
  readonly part: TesterPart
  readonly before: Known | undefined
  readonly after: Known | undefined
}

function stateOf(part: TesterPart, parts: readonly FoundPart[]): State {
  const found = parts.find((f) => f.part.id === part.id)
  if (found === undefined) return { part, before: described(part), after: described(part) }
  const before = { value: found.value, u: found.u }
  return { part, before, after: found.word === 'does not conform' ? mended(part, found) : before }
}

/** A part nobody measured: as the description has it. */
function described(part: TesterPart): Known | undefined {
  if (part.stated !== undefined) return part.stated
  if (part.nominal === undefined) return undefined
  return { value: part.nominal, u: (part.allowed.max! - part.nominal) / Math.sqrt(3) }
}

/** A part after its mend: what was put in, else as the description has it; a movement stays as it is. */
function mended(part: TesterPart, found: FoundPart): Known | undefined {
  if (part.kind === 'movement') return { value: found.value, u: found.u }
  if (found.mend?.after !== undefined) return found.mend.after
  const { stated: _, ...fresh } = part
  return described(fresh)
}

const changed = (tester: Tester, states: readonly State[], pick: (s: State) => Known | undefined): Tester =>
  states.reduce((t, s) => {
    const known = pick(s)
    return known === undefined ? t : s.part.change(t, known.value)
  }, tester)

/** What the diodes across the movement take of each range at full scale, as a part of it: never above 0. */
function diodeCost(t: Tester): readonly number[] {
  const ranges = needleRanges(t)
  const m = t.movement
  if (m?.diodes === undefined) return ranges.map(() => 0)
  const diode = protectionDiodes[m.diodes]
  const full = { kind: 'full-scale', times: 1 } as const
  return ranges.map((r) => {
    const at = (d: typeof diode | undefined): number => protectedRange(m, r, d).at(full, m.atC).movementA
    return at(diode) / at(undefined) - 1
  })
}

/** Errors of all ranges and their doubt: each part moved by its own, through the network, and summed by squares. */
function totals(
  tester: Tester,
  states: readonly State[],
  pick: (s: State) => Known | undefined,
  cost: readonly number[],
): readonly TotalError[] {
  const errors = errorsOf(changed(tester, states, pick))
  const squares = errors.map(() => 0)
  for (const moved of states) {
    const known = pick(moved)
    if (known === undefined || known.u === 0) continue
    const larger = { value: known.value + known.u, u: known.u }
    const there = errorsOf(changed(tester, states, (s) => (s === moved ? larger : pick(s))))
    errors.forEach((error, i) => {
      squares[i]! += (there[i]! - error) ** 2
    })
  }
  return errors.map((error, i) => ({ error: error + cost[i]!, expanded: 2 * Math.sqrt(squares[i]!) }))
}

function resistancesOf(t: Tester, r: Range, parts: readonly FoundPart[]): Resistances {
  const range = t.ranges.find((one) => one.id === r.id)!
  const leads = parts.find((f) => f.part.kind === 'leads')
  const leadV = leads === undefined ? {} : { leadV: leads.value * r.fullScale }
  const { circuit } = range
  if (circuit.kind !== 'shunt') return { range: r, ...leadV }
  const at = (contactOhm: number): number =>
    errorAtFullScale(t.movement!, { ...range, circuit: { ...circuit, contactOhm } }, t.movement!.atC)
  const own = at(circuit.contactOhm)
  return {
    range: r,
    byContact: own - at(0),
    perMilliohm: at(circuit.contactOhm + 1e-3) - own,
    ...leadV,
  }
}
