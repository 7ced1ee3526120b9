import type { Limit, PartType } from '#core/device'
import { printPlain } from '#core/quantity'
import type { IdentifiedAs } from './identify.ts'

/** How much one thing that is known speaks for a type, and the clause that says so. */
export interface Weight {
  readonly weight: number
  readonly because: string
}

/**
 * Weights, common practice, from memory: leads may be recorded from the other side; records and makers differ; limits
 * say little about what is typical.
 */
const weights = {
  orderKnown: 1,
  orderUnknown: 0.5,
  orderOther: 0.1,
  /** Spread of the gain of a type where limits do not say it, and where nothing does, factors. */
  gainFactor: 1.7,
  gainMiddle: 100,
  gainAny: 2.5,
  /** Typical leakage beside its limit, and its spread, factors. */
  leakTypical: 0.15,
  leakFactor: 4,
  /** Spread of a junction's drop within a type, and of what no limit says, V. */
  dropSpread: 0.04,
  dropAny: 0.1,
  /** A typical drop lies so far below the largest that is promised, V; a decade of current changes it by so much. */
  dropBelowMost: 0.08,
  dropPerDecade: 0.065,
  /** An emitter junction that gave way is not that of a type which stands more, V; and how little that leaves. */
  thinMostV: 2,
  thinOther: 0.05,
  /** Currents far from that of the meter say nothing of it, decades. */
  dropDecades: 1.5,
  /** Spread of a Zener voltage that is measured at a small current, and of any, parts of it. */
  zenerSpread: 0.05,
  zenerAny: 0.6,
} as const

/** Current of a diode check, A. */
const checkA = 1e-3

/** A normal density, and one in the logarithm of a value about a middle with a factor of spread. */
const normal = (off: number, spread: number): number => Math.exp(-0.5 * (off / spread) ** 2) / spread
const lognormal = (value: number, middle: number, factor: number): number =>
  normal(Math.log(value / middle), Math.log(factor))

/** The likeliest of several, by what one limit and another lead to expect. */
const best = <T extends { readonly weight: number }>(all: readonly T[]): T | undefined =>
  all.reduce<T | undefined>((a, b) => (a === undefined || b.weight > a.weight ? b : a), undefined)

/** By the leads as they are recorded, from either side. */
export function byLeads(t: PartType, leads: IdentifiedAs['leads']): Weight {
  const recorded = t.leads?.order
  if (recorded === undefined || recorded === 'verify')
    return { weight: weights.orderUnknown, because: 'its lead order is not on record' }
  const names = recorded
    .split('-')
    .filter((e) => !['S', 'case', 'nc'].includes(e) || t.family === 'jfet' || t.family === 'mosfet')
  const seen = Object.values(leads)
  const fits = (order: readonly string[]): boolean =>
    order.length === seen.length && order.every((e, k) => seen[k]!.split(' or ').includes(e))
  return fits(names) || fits([...names].reverse())
    ? { weight: weights.orderKnown, because: `leads ${recorded}` }
    : { weight: weights.orderOther, because: `its leads are ${recorded}, not these` }
}

/** Middle and factor of spread of what a limit says is to be expected. */
function gainOf({ min, typ, max }: Limit): readonly [middle: number, factor: number] | undefined {
  if (min !== undefined && max !== undefined)
    return [typ ?? Math.sqrt(min * max), Math.max(1.15, (max / min) ** (1 / 3.3))]
  const middle = typ ?? (min === undefined ? undefined : 1.8 * min) ?? (max === undefined ? undefined : 0.6 * max)
  return middle === undefined || !(middle > 0) ? undefined : [middle, weights.gainFactor]
}

/** By a measured h_FE. */
export function byGain(t: PartType, gain: number): Weight {
  const spans = t.limits.flatMap((l) => (l.symbol === 'h_FE' ? [gainOf(l)] : [])).filter((s) => s !== undefined)
  const found = best(spans.map(([middle, factor]) => ({ middle, weight: lognormal(gain, middle, factor) })))
  if (found === undefined)
    return { weight: lognormal(gain, weights.gainMiddle, weights.gainAny), because: 'its gain is not on record' }
  return { weight: found.weight, because: `h_FE about ${Number(found.middle.toPrecision(2))}` }
}

/** By a measured I_CBO, A. */
export function byLeakage(t: PartType, leakA: number): Weight {
  const limit = t.limits.find((l) => l.symbol === 'I_CBO' && l.max !== undefined)?.max
  if (limit === undefined) return { weight: 0.3, because: 'its I_CBO is not on record' }
  const weight = lognormal(Math.max(leakA, 1e-11), limit * weights.leakTypical, weights.leakFactor)
  return { weight, because: leakA > limit ? 'I_CBO is above its limit' : 'I_CBO is within its limit' }
}

/** Middle of a drop at the current of a meter, V, by a limit at a current not far from it. */
function dropOf({ min, typ, max, at }: Limit): number | undefined {
  const current = at.I_C ?? at.I_F
  if (current === undefined) return undefined
  const decades = Math.log10(current / checkA)
  if (Math.abs(decades) > weights.dropDecades) return undefined
  const middle =
    typ ??
    (min !== undefined && max !== undefined ? (min + max) / 2 : max === undefined ? min : max - weights.dropBelowMost)
  return middle === undefined ? undefined : middle - weights.dropPerDecade * decades
}

/** By the drop of the emitter junction, or of a diode, that a diode check shows, V. */
export function byDrop(t: PartType, dropV: number): Weight {
  const symbol = t.family === 'bjt' ? 'V_BE(on)' : 'V_F'
  const middles = t.limits.flatMap((l) => (l.symbol === symbol ? [dropOf(l)] : [])).filter((m) => m !== undefined)
  const found = best(middles.map((middle) => ({ middle, weight: normal(dropV - middle, weights.dropSpread) })))
  if (found === undefined) return { weight: 1 / weights.dropAny / 2, because: `its ${symbol} is not on record` }
  return { weight: found.weight, because: `${symbol} about ${printPlain(found.middle, 'V', { digits: 2 })} at 1 mA` }
}

/** By V_EBO, of a part whose emitter junction gave way at a volt or two. */
export function byThinEmitter(t: PartType): Weight | undefined {
  const rated = t.ratings.V_EBO
  if (rated === undefined) return undefined
  return rated > weights.thinMostV
    ? { weight: weights.thinOther, because: `its emitter stands ${printPlain(rated, 'V', { digits: 2 })}` }
    : { weight: 1, because: `V_EBO ${printPlain(rated, 'V', { digits: 2 })}` }
}

/** By a measured breakdown, V. */
export function byZener(t: PartType, zenerV: number): Weight {
  const limit = t.limits.find((l) => l.symbol === 'V_Z')
  const middle =
    limit?.typ ?? (limit?.min !== undefined && limit.max !== undefined ? (limit.min + limit.max) / 2 : undefined)
  if (middle === undefined) return { weight: 1 / weights.zenerAny / 2, because: 'its V_Z is not on record' }
  const weight = normal(zenerV / middle - 1, weights.zenerSpread)
  return { weight, because: `V_Z ${printPlain(middle, 'V', { digits: 3 })}` }
}
