import { setValue } from '#core/circuit'
import { type ESeries, preferredBetween } from '#core/resistor'
import type { PartNumbers } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { nearlyRestsCool, putValues, type Rest, restAt, restOf } from './rest.ts'
import { comesNearRest, makeStage, readPlace, roughShare, type Stage } from './stage-point.ts'

/** A resistor that is changed, ohm. */
export interface ResistorChange {
  readonly ref: string
  readonly fromOhm: number
  readonly toOhm: number
}

/** What brings a stage back to its operating point when another part stands in it. */
export interface ReBias {
  /** With the part the stage was made for, and with the other one before anything is changed. */
  readonly before: Rest
  readonly unchanged?: Rest
  /** The least change that restores it: none where nothing need be changed; left out where no values do. */
  readonly changes?: readonly ResistorChange[]
  readonly after?: Rest
  /** Where no values restore both current and drift: those that come nearest, and how they rest. */
  readonly nearest?: { readonly changes: readonly ResistorChange[]; readonly after: Rest }
}

export interface ReBiasOptions {
  /** Series the new resistors are taken from. */
  readonly series: ESeries
  /** How far the current may be off, as a share. */
  readonly within: number
  /** How far a resistor may be changed, as a ratio to either side. */
  readonly span: number
  /** Whether the nearest values are looked for where none restore the stage, which takes longer. */
  readonly hasNearest: boolean
}

export const reBiasDefaults = {
  series: 'E24',
  within: 0.05,
  span: 10,
  hasNearest: true,
} as const satisfies ReBiasOptions

/**
 * The least change of resistors with which another part stands where the first one stood: its collector current in air of
 * 25 degC within 5 %, drifting no more over temperature than the first part did, with as much room for the signal as
 * that needs. Fewer resistors before more, then the smaller change by ratio. Only the resistors that settle the stage are
 * changed, to preferred values within a decade to either side.
 *
 * The search is complete for stages whose current rises or falls all the way with each of these resistors, as far as the
 * transistor is not bottomed; the tests hold it to a search of all values.
 *
 * @param parts with the part the stage was made for in its place
 * @param other the part that is to stand there
 * @returns nothing where the stage has no operating point with the first part
 */
export function reBias(
  position: Position,
  parts: Parts,
  other: PartNumbers,
  options: Partial<ReBiasOptions> = {},
): ReBias | undefined {
  const before = restOf(position, parts)
  if (before === undefined) return undefined
  const { series, within, span, hasNearest } = { ...reBiasDefaults, ...options }
  const s = makeStage(position, { ...parts, [position.place]: other })
  const unchanged = restAt(s)
  const shared = unchanged === undefined ? { before } : { before, unchanged }
  const search: Search = { s, before, within, hasNearest, best: undefined, nearest: undefined }
  if (unchanged !== undefined && fits(search, unchanged)) return { ...shared, changes: [], after: unchanged }
  const free = position.template.settles.filter((ref) => position.ohm[ref] !== undefined)
  const ladders = new Map(free.map((ref) => [ref, ladder(position.ohm[ref]!, series, span)]))
  for (let size = 1; size <= free.length && search.best === undefined; size++)
    for (const refs of subsets(free, size)) tryAll(search, refs, ladders)
  const { best, nearest } = search
  if (best !== undefined) return { ...shared, changes: changesOf(position, best.ohm), after: best.rest }
  if (nearest === undefined) return shared
  return { ...shared, nearest: { changes: changesOf(position, nearest.ohm), after: nearest.rest } }
}

type Values = Readonly<Record<string, number>>

interface Found {
  readonly ohm: Values
  readonly rest: Rest
  readonly cost: number
}

interface Search {
  readonly s: Stage
  readonly before: Rest
  readonly within: number
  readonly hasNearest: boolean
  best: Found | undefined
  nearest: Found | undefined
}

/** A value a resistor may be changed to, with what the change counts: the logarithm of its ratio. */
interface Rung {
  readonly ohm: number
  readonly cost: number
}

/** Values within the span, rising; the one that is there already is no change. */
const ladder = (ohm: number, series: ESeries, span: number): readonly Rung[] =>
  preferredBetween(ohm / span, ohm * span, series)
    .map((r) => ({ ohm: r, cost: Math.abs(Math.log(r / ohm)) }))
    .filter((rung) => rung.cost > 1e-9)

function subsets(refs: readonly string[], size: number): readonly (readonly string[])[] {
  if (size === 0) return [[]]
  return refs.flatMap((ref, k) => subsets(refs.slice(k + 1), size - 1).map((rest) => [ref, ...rest]))
}

/**
 * Tries every value of all but the first resistor of a subset, cheapest first. The first one is found by its current, from
 * the rung at which it was found with the value beside it.
 */
function tryAll(search: Search, refs: readonly string[], ladders: ReadonlyMap<string, readonly Rung[]>): void {
  const [first, ...others] = refs as [string, ...string[]]
  const base = Object.fromEntries(refs.map((ref) => [ref, search.s.position.ohm[ref]!]))
  const rungsOf = others.map((ref) => [...ladders.get(ref)!].sort((a, b) => a.cost - b.cost))
  /** Gives back the rung of the first resistor that was found with the cheapest values. */
  const walk = (k: number, ohm: Values, cost: number, guess: number): number => {
    if (cost >= (search.best?.cost ?? Number.POSITIVE_INFINITY)) return guess
    if (k === others.length) return tryFirst(search, first, ladders.get(first)!, ohm, cost, guess)
    const ref = others[k]!
    let [ofCheapest, below, above] = [undefined as number | undefined, guess, guess]
    for (const rung of rungsOf[k]!) {
      const isBelow = rung.ohm < base[ref]!
      const found = walk(k + 1, { ...ohm, [ref]: rung.ohm }, cost + rung.cost, isBelow ? below : above)
      if (isBelow) below = found
      else above = found
      ofCheapest ??= found
    }
    return ofCheapest ?? guess
  }
  walk(0, {}, 0, ladders.get(first)!.length >> 1)
  putValues(search.s, base)
}

/**
 * Tries the rungs of one resistor that bring the current to where it belongs, the others having their values.
 *
 * @returns the first such rung, or that beside which it would stand: a guess for values near by
 */
function tryFirst(
  search: Search,
  ref: string,
  rungs: readonly Rung[],
  others: Values,
  cost: number,
  guess: number,
): number {
  const { s, before, within } = search
  const last = rungs.length - 1
  if (last < 0) return guess
  const known = new Float64Array(rungs.length)
  putValues(s, others)
  const currentAt = (k: number): number => {
    if (known[k] === 0) {
      setValue(s.c, ref, rungs[k]!.ohm)
      known[k] = currentOf(s)
    }
    return known[k]!
  }
  const near = Math.min(Math.max(guess, 0), last - 1)
  const rises = risesAlong(currentAt, near, last)
  const at = (k: number): number => currentAt(rises ? k : last - k)
  const from = firstAbove(at, before.ic * (1 - within - roughShare), rungs.length, rises ? near : last - near)
  const to = firstAbove(at, before.ic * (1 + within + roughShare), rungs.length, from)
  for (let k = from; k < to; k++) {
    const rung = rungs[rises ? k : last - k]!
    const ohm = { ...others, [ref]: rung.ohm }
    if (cost + rung.cost < (search.best?.cost ?? Number.POSITIVE_INFINITY)) consider(search, ohm, cost + rung.cost)
  }
  return rises ? from : last - from
}

/** Whether the current rises along a ladder: by two rungs beside each other where they tell, else by its ends. */
function risesAlong(currentAt: (k: number) => number, near: number, last: number): boolean {
  const [a, b] = near < 0 ? [0, 0] : [currentAt(near), currentAt(near + 1)]
  return Number.isFinite(a) && Number.isFinite(b) && a !== b ? b > a : currentAt(last) > currentAt(0)
}

/** First of `count` rising numbers that is not below a limit, looked for from a guess in steps that double. */
function firstAbove(at: (k: number) => number, limit: number, count: number, guess: number): number {
  let [low, high] = [0, count]
  let probe = Math.min(Math.max(guess, 0), count - 1)
  for (let step = 1; low < high; step *= 2) {
    if (at(probe) < limit) {
      low = probe + 1
      if (high < count) break
      probe = Math.min(probe + step, count - 1)
    } else {
      high = probe
      if (low > 0) break
      probe = Math.max(probe - step, 0)
    }
  }
  while (low < high) {
    const middle = (low + high) >> 1
    if (at(middle) < limit) low = middle + 1
    else high = middle
  }
  return low
}

/** Collector current in air of 25 degC; without bound where the transistor is bottomed or runs away, NaN-free for the halving. */
function currentOf(s: Stage): number {
  if (!nearlyRestsCool(s)) return Number.POSITIVE_INFINITY
  const { ic, vce } = readPlace(s)
  return vce < bottomedV ? Number.POSITIVE_INFINITY : ic
}

/** Collector voltage below which more drive no longer brings more current, V. */
const bottomedV = 0.2

function consider(search: Search, ohm: Values, cost: number): void {
  putValues(search.s, ohm)
  const isLost =
    (slack: number) =>
    (soFar: Rest): boolean =>
      !fits(search, soFar, slack) && !isNearer(search, soFar, slack)
  // most are lost by far, so that a rough rest will do
  if (restAt(search.s, isLost(roughShare), comesNearRest) === undefined) return
  const rest = restAt(search.s, isLost(0))
  if (rest === undefined) return
  const found = { ohm, rest, cost }
  if (fits(search, rest)) search.best = found
  else if (isNearer(search, rest)) search.nearest = found
}

const isNearer = ({ hasNearest, nearest, before, within }: Search, rest: Rest, slack = 0): boolean =>
  hasNearest &&
  isNearCurrent(rest, before, within + slack) &&
  (nearest === undefined || leastDrift(rest, slack) < nearest.rest.drift)

const isNearCurrent = (rest: Rest, before: Rest, within: number): boolean => Math.abs(rest.ic / before.ic - 1) <= within

/** What the drift is at least where each current may be off by a share. */
const leastDrift = ({ drift }: Rest, slack: number): number => drift - 2 * slack * (1 + drift)

/** Whether a stage rests as it did before, or better; `slack` is how far its currents may be off, as a share. */
function fits({ s, before, within }: Pick<Search, 's' | 'before' | 'within'>, rest: Rest, slack = 0): boolean {
  const { demands, supplyV } = s.position
  const offV = slack * supplyV
  return (
    isNearCurrent(rest, before, within + slack) &&
    leastDrift(rest, slack) <= before.drift * (1 + 1e-9) &&
    rest.vce >= bottomedV - offV &&
    rest.rooms.every((room, k) => room >= Math.min(demands.swingV, before.rooms[k]!) - 1e-9 - offV)
  )
}

const changesOf = (position: Position, ohm: Values): readonly ResistorChange[] =>
  Object.entries(ohm).map(([ref, toOhm]) => ({ ref, fromOhm: position.ohm[ref]!, toOhm }))
