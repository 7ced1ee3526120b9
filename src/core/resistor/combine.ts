import { type ESeries, nearestPreferred, preferredAbove, preferredBelow, preferredBetween } from './e-series.ts'
import { resistorRating } from './power-rating.ts'

/** What a resistor made of one or two carries: one current, or one voltage across the whole. */
export type Load = { readonly currentA: number } | { readonly voltageV: number }

/** One resistor of a combination and what it has to bear. */
export interface Member {
  readonly ohm: number
  /** Heat in it, W, and the rating to buy; left out where no load was stated. */
  readonly powerW?: number
  readonly ratingW?: number
}

/** One resistor, or two in series or side by side, in place of a resistance. */
export interface Combination {
  readonly kind: 'one' | 'series' | 'parallel'
  readonly members: readonly Member[]
  /** Resistance of the whole at its printed values, ohm. */
  readonly ohm: number
  /** How far that is from the wanted resistance, as a part of it. */
  readonly error: number
  /** The same with every member at the worse end of its limit of error. */
  readonly worst: number
}

export interface CombineOptions {
  readonly series: ESeries
  /** How far from the wanted resistance the printed values may be, as a part of it. */
  readonly within: number
  /** Limit of error of the resistors, as a part of their value. */
  readonly tolerance: number
  readonly load?: Load
}

/** What there is to take in place of a resistance. */
export interface Combinations {
  /** The simplest that lies within: one resistor before two, then the nearest; undefined where none does. */
  readonly taken?: Combination
  readonly one: Combination
  /** The nearest pair of each kind; left out where the decades sold have none. */
  readonly inSeries?: Combination
  readonly sideBySide?: Combination
}

/** Resistances sold in any shop, ohm (common practice). */
export const soldOhm = { from: 0.1, to: 10e6 } as const

/** Two resistances side by side. */
const parallel = (a: number, b: number): number => (a * b) / (a + b)

/**
 * Finds the resistor of a series nearest to a resistance, and the nearest pairs in series and side by side, with the
 * power each resistor takes.
 *
 * @param ohm wanted, above 0
 * @see Ohm's law; members of equal tolerance make a whole of that tolerance
 * @example combine(11.1, { series: 'E24', within: 0.005, tolerance: 0.01 }).taken?.kind // 'series'
 */
export function combine(ohm: number, o: CombineOptions): Combinations {
  const make = (kind: Combination['kind'], ohms: readonly number[]): Combination => combination(ohm, kind, ohms, o)
  const one = make('one', [nearestPreferred(ohm, o.series)])
  const inSeries = nearest(
    sold(preferredBelow(ohm / 2, o.series), preferredAbove(ohm, o.series), o.series).flatMap((a) =>
      besides(ohm - a, o.series).map((b) => make('series', [a, b])),
    ),
  )
  const sideBySide = nearest(
    sold(preferredBelow(ohm, o.series), preferredAbove(2 * ohm, o.series), o.series).flatMap((a) =>
      besides(a <= ohm ? soldOhm.to : 1 / (1 / ohm - 1 / a), o.series).map((b) => make('parallel', [a, b])),
    ),
  )
  const isNear = (c: Combination | undefined): c is Combination =>
    c !== undefined && Math.abs(c.error) <= o.within * (1 + 1e-9)
  const taken = isNear(one) ? one : [inSeries, sideBySide].filter(isNear).sort(byError)[0]
  return { ...(taken && { taken }), one, ...(inSeries && { inSeries }), ...(sideBySide && { sideBySide }) }
}

const sold = (fromOhm: number, toOhm: number, series: ESeries): readonly number[] =>
  preferredBetween(Math.max(fromOhm, soldOhm.from), Math.min(toOhm, soldOhm.to), series)

/** Preferred values below and above what a second resistor should be, of those that are sold. */
function besides(ohm: number, series: ESeries): readonly number[] {
  const there = Math.min(Math.max(ohm, soldOhm.from), soldOhm.to)
  return [preferredBelow(there, series), preferredAbove(there, series)]
}

/** Nearest first; of equals the more unequal pair, whose smaller share may be of a looser tolerance. */
function byError(a: Combination, b: Combination): number {
  const nearer = Math.abs(a.error) - Math.abs(b.error)
  return Math.abs(nearer) > 1e-9 ? nearer : spread(b) - spread(a)
}

const spread = ({ members }: Combination): number =>
  Math.abs(Math.log(members[0]!.ohm / members[members.length - 1]!.ohm))

const nearest = (all: readonly Combination[]): Combination | undefined => [...all].sort(byError)[0]

function combination(
  wanted: number,
  kind: Combination['kind'],
  ohms: readonly number[],
  { tolerance, load }: CombineOptions,
): Combination {
  const ohm = ohms.reduce((a, b) => (kind === 'parallel' ? parallel(a, b) : a + b))
  const error = ohm / wanted - 1
  return {
    kind,
    members: ohms.map((member) => ({ ohm: member, ...(load && powerOf(member, ohm, kind, load)) })),
    ohm,
    error,
    worst: Math.max(Math.abs((1 + error) * (1 + tolerance) - 1), Math.abs((1 + error) * (1 - tolerance) - 1)),
  }
}

/** Heat in one member: one current goes through members in series, one voltage stands across members side by side. */
function powerOf(member: number, whole: number, kind: Combination['kind'], load: Load): Required<Omit<Member, 'ohm'>> {
  const currentA = 'currentA' in load ? load.currentA : load.voltageV / whole
  const powerW = kind === 'parallel' ? (currentA * whole) ** 2 / member : currentA ** 2 * member
  return { powerW, ratingW: resistorRating(powerW) }
}
