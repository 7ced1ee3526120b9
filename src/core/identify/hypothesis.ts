import { faultText } from './fault-kind.ts'
import { type Joined, pairsOf } from './lead-curve.ts'
import { type Condition, conditions } from './likelihood-table.ts'
import type { Named } from './part-kind.ts'

/** What a part may be: a kind in one polarity, sound or with a fault, its leads in one order. */
export interface Hypothesis {
  readonly condition: Condition
  readonly named: Named
  readonly isTurned: boolean
  /** Place of the electrode at each lead. */
  readonly order: readonly number[]
  /** Probability before any reading. */
  readonly prior: number
}

/** Where the meter is put: leads counted from 0, and where the third is joined to. */
export interface Put {
  readonly plus: number
  readonly minus: number
  readonly joined?: Joined
}

/** Where a way to put the meter on leads stands among those that were simulated on electrodes. */
export function simulatedPair(h: Hypothesis, { plus, minus, joined }: Put): number {
  const { length } = h.order
  const [a, b] = h.isTurned ? [h.order[minus]!, h.order[plus]!] : [h.order[plus]!, h.order[minus]!]
  const pair = a * (length - 1) + (b > a ? b - 1 : b)
  if (joined === undefined) return pair
  const isToPlus = (joined === 'plus') !== h.isTurned
  return pair + length * (length - 1) * (isToPlus ? 1 : 2)
}

const orders: Readonly<Record<number, readonly (readonly number[])[]>> = {
  2: pairsOf(2),
  3: pairsOf(3).map(([a, b]) => [a, b, 3 - a - b]),
}

/**
 * Electrodes that no reading between two leads can tell apart: those that a short has made alike, which makes the third
 * one unlike the two, else those of the kind.
 */
function alikeOf({ kind, fault }: Condition): readonly (readonly [string, string])[] {
  const isPair = fault?.kind === 'short' && fault.between.length === 2
  return isPair ? [fault.between as [string, string]] : (kind.alike ?? [])
}

/** Whether an order is the one that stands for those that cannot be told from it. */
function stands(c: Condition, order: readonly number[]): boolean {
  const at = (electrode: string): number => order.indexOf(c.kind.electrodes.indexOf(electrode))
  return alikeOf(c).every(([a, b]) => at(a) < at(b))
}

function namedBoth(c: Condition): readonly { readonly named: Named; readonly isTurned: boolean }[] {
  const plain = { named: c.kind.as, isTurned: false }
  return c.kind.turned === undefined ? [plain] : [plain, { named: c.kind.turned, isTurned: true }]
}

/** Odds of parts that are dead throughout, beside those of the other kinds. */
const deadOdds = 2

function oddsOf(c: Condition, named: Named): number {
  const bad = c.kind.badShare ?? 0
  const odds = c.kind.as.odds === 0 ? deadOdds : named.odds
  if (c.fault === undefined) return odds * (1 - bad)
  const all = c.kind.faults!.reduce((sum, f) => sum + f.share, 0)
  return (odds * bad * c.fault.share) / all
}

function hypothesesOf(leads: number): readonly Hypothesis[] {
  const made = conditions
    .filter((c) => c.kind.electrodes.length === leads)
    .flatMap((condition) =>
      namedBoth(condition).flatMap(({ named, isTurned }) => {
        const distinct = orders[leads]!.filter((order) => stands(condition, order))
        const prior = oddsOf(condition, named) / distinct.length
        return distinct.map((order): Hypothesis => ({ condition, named, isTurned, order, prior }))
      }),
    )
  const sum = made.reduce((s, h) => s + h.prior, 0)
  return made.map((h) => ({ ...h, prior: h.prior / sum }))
}

/** Everything that a part of two, or of three, leads may be. */
export const hypotheses: Readonly<Record<2 | 3, readonly Hypothesis[]>> = { 2: hypothesesOf(2), 3: hypothesesOf(3) }

/** Name of an electrode in the polarity of a hypothesis. */
export const electrodeName = (h: Hypothesis, electrode: string): string => h.named.names?.[electrode] ?? electrode

/** Electrode at each lead, counted from 1; `D or S` where the two cannot be told apart. */
export function leadMap(h: Hypothesis): Readonly<Record<string, string>> {
  const alike = alikeOf(h.condition)
  const name = (electrode: string): string => {
    const same = alike.flatMap((pair) => (pair.includes(electrode) ? pair : []))
    const all = same.length === 0 ? [electrode] : h.condition.kind.electrodes.filter((e) => same.includes(e))
    return all.map((e) => electrodeName(h, e)).join(' or ')
  }
  return Object.fromEntries(h.order.map((e, lead) => [String(lead + 1), name(h.condition.kind.electrodes[e]!)]))
}

/** What kind of part a hypothesis speaks of, without its leads. */
export function kindText(h: Hypothesis): string {
  const { kind, fault } = h.condition
  const { family, polarity } = h.named
  const isAfter = /^(with|in) /.test(polarity ?? '')
  const named = isAfter ? [kind.mode, family, polarity] : [polarity, kind.mode, family]
  const words = [kind.technology, ...named].filter((w) => w !== undefined)
  const extras = kind.extras === undefined ? '' : ` with ${kind.extras.join(' and ')}`
  if (h.named.odds === 0) return `a part that is ${faultText(fault)}`
  return `${words.join(' ')}${extras}${fault === undefined ? '' : ` (${faultText(fault)})`}`
}

/** A kind of part, whatever the order of its leads. */
export interface KnownKind {
  /** Probability before any reading. */
  readonly prior: number
  readonly all: readonly Hypothesis[]
}

function kindsOf(all: readonly Hypothesis[]): ReadonlyMap<string, KnownKind> {
  const found = new Map<string, KnownKind>()
  for (const h of all) {
    const known = found.get(kindText(h))
    found.set(kindText(h), { prior: (known?.prior ?? 0) + h.prior, all: [...(known?.all ?? []), h] })
  }
  return found
}

/** Everything that a part of two, or of three, leads may be, by its kind. */
export const kinds: Readonly<Record<2 | 3, ReadonlyMap<string, KnownKind>>> = {
  2: kindsOf(hypotheses[2]),
  3: kindsOf(hypotheses[3]),
}
