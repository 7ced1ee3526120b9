import { type ESeries, preferredBetween } from '#core/resistor'
import type { PartNumbers } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { type Rest, restAt, restOf, settleWith } from './rest.ts'
import { makeStage, readPoint, type Stage } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

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
}

export const reBiasDefaults = { series: 'E24', within: 0.05, span: 10 } as const satisfies ReBiasOptions

/**
 * The least change of resistors with which another part stands where the first one stood: its collector current at
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
  const { series, within, span } = { ...reBiasDefaults, ...options }
  const s = makeStage(position, { ...parts, [position.place]: other })
  const unchanged = restAt(s)
  const shared = unchanged === undefined ? { before } : { before, unchanged }
  const search: Search = { s, before, within, best: undefined, nearest: undefined }
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

/** Tries every value of all but the first resistor of a subset, cheapest first; the first one is found by halving. */
function tryAll(search: Search, refs: readonly string[], ladders: ReadonlyMap<string, readonly Rung[]>): void {
  const [first, ...others] = refs as [string, ...string[]]
  const base = Object.fromEntries(refs.map((ref) => [ref, search.s.position.ohm[ref]!]))
  const walk = (k: number, ohm: Values, cost: number): void => {
    if (cost >= (search.best?.cost ?? Number.POSITIVE_INFINITY)) return
    if (k === others.length) {
      tryFirst(search, first, ladders.get(first)!, ohm, cost)
      return
    }
    const rungs = [...ladders.get(others[k]!)!].sort((a, b) => a.cost - b.cost)
    for (const rung of rungs) walk(k + 1, { ...ohm, [others[k]!]: rung.ohm }, cost + rung.cost)
  }
  walk(0, {}, 0)
  settleWith(search.s, base)
}

/** The rungs of one resistor that bring the current to where it belongs, the others having their values. */
function tryFirst(search: Search, ref: string, rungs: readonly Rung[], others: Values, cost: number): void {
  const { s, before, within } = search
  const known = new Map<number, number>()
  const currentAt = (k: number): number => {
    const value = known.get(k) ?? currentOf(s, { ...others, [ref]: rungs[k]!.ohm })
    known.set(k, value)
    return value
  }
  const last = rungs.length - 1
  if (last < 0) return
  const rises = currentAt(last) > currentAt(0)
  const firstAbove = (limit: number): number => {
    let [low, high] = [0, rungs.length]
    while (low < high) {
      const middle = (low + high) >> 1
      if (currentAt(rises ? middle : last - middle) < limit) low = middle + 1
      else high = middle
    }
    return low
  }
  const [from, to] = [firstAbove(before.ic * (1 - within)), firstAbove(before.ic * (1 + within))]
  for (let k = from; k < to; k++) {
    const rung = rungs[rises ? k : last - k]!
    const ohm = { ...others, [ref]: rung.ohm }
    if (cost + rung.cost < (search.best?.cost ?? Number.POSITIVE_INFINITY)) consider(search, ohm, cost + rung.cost)
  }
}

/** Collector current at 25 degC; without bound where the transistor is bottomed, NaN-free for the halving. */
function currentOf(s: Stage, ohm: Values): number {
  if (!settleWith(s, ohm)) return Number.POSITIVE_INFINITY
  const { ic, vce } = readPoint(s, numbersAtC)
  return vce < bottomedV ? Number.POSITIVE_INFINITY : ic
}

/** Collector voltage below which more drive no longer brings more current, V. */
const bottomedV = 0.2

function consider(search: Search, ohm: Values, cost: number): void {
  if (!settleWith(search.s, ohm)) return
  const rest = restAt(search.s)
  if (rest === undefined) return
  const found = { ohm, rest, cost }
  if (fits(search, rest)) search.best = found
  else if (search.nearest === undefined || rest.drift < search.nearest.rest.drift) search.nearest = found
}

/** Whether a stage rests as it did before, or better. */
function fits({ s, before, within }: Pick<Search, 's' | 'before' | 'within'>, rest: Rest): boolean {
  const { swingV } = s.position.demands
  return (
    Math.abs(rest.ic / before.ic - 1) <= within &&
    rest.drift <= before.drift * (1 + 1e-9) &&
    rest.vce >= bottomedV &&
    rest.rooms.every((room, k) => room >= Math.min(swingV, before.rooms[k]!) - 1e-9)
  )
}

const changesOf = (position: Position, ohm: Values): readonly ResistorChange[] =>
  Object.entries(ohm).map(([ref, toOhm]) => ({ ref, fromOhm: position.ohm[ref]!, toOhm }))
