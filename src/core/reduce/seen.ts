import type { PartType } from '#core/device'
import type { LawMaterial } from '#core/physics'
import { leaf, type Origin, type Quantity, standardUncertainty, term } from '#core/quantity'
import type { Reading, ReadingKind } from '#core/tester'
import { meanOf, withOwnCauses } from './repeat.ts'

/** A reading as the tester's inverse model understands it. */
export interface SeenReading {
  readonly reading: Reading
  /** At the part, with its budget. */
  readonly quantity: Quantity
  /** Voltage at the part: the supply less what the meter drops. Left out where the supply was not written down. */
  readonly supply?: Quantity<'V'>
  /** Collector current the tester works at by itself, A, where it is stated and not read. */
  readonly collectorA?: number
  /** Where the needle stood, as a share of full scale; left out for displays. */
  readonly deflection?: number
  /** A finer range the tester has for it. */
  readonly finerRange?: string
  /** What a calibration says against it. */
  readonly distrust?: string
  /** What is known against it beside the description. */
  readonly against?: string
}

/**
 * What is known against a reading beside the tester's description, such as parts found out of their limits: a sentence.
 *
 * @param of id of the range it was read on, or `gain` for the gain dial
 * @param at when it was read, ISO; left out, now
 */
export type Against = (of: { readonly range: string } | 'gain', at?: string) => string | undefined

/** One value at one operating point: a reading, or the mean of repeated ones. */
export interface Held {
  readonly symbol: ReadingKind
  readonly quantity: Quantity
  readonly point: number
  readonly supply?: Quantity<'V'>
  readonly ambient: Ambient
  readonly readings: readonly SeenReading[]
}

/** Room temperature as a quantity, and whether anybody wrote it down. */
export interface Ambient {
  readonly quantity: Quantity<'degC'>
  readonly u: number
  readonly isAssumed: boolean
}

/** Where a room temperature comes from when a reading does not say. */
export interface AmbientOptions {
  /** degC; used for readings that carry none. */
  readonly ambientC?: number
  /** Standard uncertainty of the room temperature, K. */
  readonly ambientU?: number
}

/** What is taken for granted about the room where nobody wrote it down (common practice). */
export const ambientDefaults = {
  /** A living room or workshop, degC. */
  ambientC: 20,
  /** Its doubt when nobody wrote it down, K. */
  unknownU: 3,
  /** Doubt of a room thermometer near the part, K. */
  readU: 1,
} as const

/** The thermometer that the room temperatures of a run were read on. */
export interface Thermometer {
  /** Name of its error as a cause; readings on one thermometer share it. */
  readonly cause: string
  /** Standard uncertainty for readings that state none, K. */
  readonly u?: number
}

/** The room temperature of a reading. */
export function ambientOf(reading: Reading, options: AmbientOptions, thermometer: Thermometer): Ambient {
  const written = reading.ambientC ?? options.ambientC
  if (written === undefined) {
    const { ambientC, unknownU } = ambientDefaults
    const origin = { kind: 'assumed', what: 'room temperature', why: 'none was written down' } as const
    return { quantity: room(ambientC, unknownU, origin, thermometer), u: unknownU, isAssumed: true }
  }
  const u = reading.ambientU ?? options.ambientU ?? thermometer.u ?? ambientDefaults.readU
  const origin = { kind: 'read', what: 'room temperature', seen: `${written} degC` } as const
  return { quantity: room(written, u, origin, thermometer), u, isAssumed: false }
}

const room = (celsius: number, u: number, origin: Origin, thermometer: Thermometer): Quantity<'degC'> =>
  leaf(celsius, 'degC', origin, [term(thermometer.cause, { label: 'ambient temperature', u: 1, slope: u })])

/** A text that puts readings in one order, whatever order they came in. */
const orderKey = (s: SeenReading): string => {
  const r = s.reading
  return [r.at ?? '', r.range ?? '', r.seen, r.note ?? '', String(s.quantity.value)].join('\n')
}

const groupKey = (r: Reading): string => [r.reads, r.point, r.supplyV ?? ''].join('\n')

/**
 * Readings of one part brought together: those of one kind, point and supply are repeats and give their mean; of
 * repeats on several ranges the range that reads best is kept.
 */
export function hold(seen: readonly SeenReading[], ambient: (r: Reading) => Ambient): Held[] {
  const groups = new Map<string, SeenReading[]>()
  for (const s of ownCauses(seen)) {
    const key = groupKey(s.reading)
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [s])
    else group.push(s)
  }
  const held = [...groups.entries()].sort(([a], [b]) => (a < b ? -1 : 1))
  return held.map(([, group]) => heldOf(group, ambient))
}

/** In one order, and with causes of their own for readings of one kind taken again: each was read anew. */
function ownCauses(seen: readonly SeenReading[]): readonly SeenReading[] {
  if (!anyRepeated(seen)) return seen
  const sorted = seen.map((s) => [orderKey(s), s] as const).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
  const counts = new Map<string, number>()
  return sorted.map(([, s]) => {
    const key = `${s.reading.reads}\n${s.reading.point}`
    const count = (counts.get(key) ?? 0) + 1
    counts.set(key, count)
    return count === 1 ? s : { ...s, quantity: withOwnCauses(s.quantity, count) }
  })
}

function anyRepeated(seen: readonly SeenReading[]): boolean {
  for (let i = 1; i < seen.length; i++)
    for (let k = 0; k < i; k++)
      if (seen[i]!.reading.point === seen[k]!.reading.point && seen[i]!.reading.reads === seen[k]!.reading.reads)
        return true
  return false
}

function heldOf(group: readonly SeenReading[], ambient: (r: Reading) => Ambient): Held {
  const readings = group.length === 1 ? group : onBestRange(group)
  const first = readings[0]!
  return {
    symbol: first.reading.reads,
    quantity: meanOf(readings.map((s) => s.quantity)),
    point: first.reading.point,
    ...(first.supply === undefined ? {} : { supply: first.supply }),
    ambient: ambient(first.reading),
    readings,
  }
}

function onBestRange(group: readonly SeenReading[]): SeenReading[] {
  const best = group.reduce((a, b) => (standardUncertainty(b.quantity) < standardUncertainty(a.quantity) ? b : a))
  return group.filter((s) => s.reading.range === best.reading.range)
}

/** The material whose laws apply to a type; undefined where none are known here. */
export const lawMaterial = (t: PartType | undefined): LawMaterial | undefined =>
  t?.material === 'Ge' || t?.material === 'Si' ? t.material : undefined
