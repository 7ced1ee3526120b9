import type { DeviceSetting } from '#core/physics'
import type { Movement, Range } from '#core/tester'
import { type Drive, protectedRange } from './protection-circuit.ts'
import { type ProtectionDiode, type ProtectionDiodeId, protectionDiodes } from './protection-diode.ts'

export interface ProtectionWish {
  readonly movement: Movement
  readonly range: Range
  /** What the terminals may get by mistake. */
  readonly overload: Drive
  /** Temperatures at the bench, degC. */
  readonly temperaturesC: readonly number[]
  /** Error the diodes may make at full scale, as a part of it. */
  readonly mostError: number
  /** How many times its full scale the movement bears for a moment. */
  readonly bears: number
  /** A diode of one's own beside the kinds there are. */
  readonly own?: ProtectionDiode
  readonly setting?: DeviceSetting
}

/**
 * What is taken where nobody says otherwise: diodes may cost a third of the class; a movement bears ten times its full scale
 * for half a second (IEC 60051-1 for ammeters, from memory).
 */
export const protectionDefaults = { partOfClass: 1 / 3, bears: 10, temperaturesC: [10, 25, 40] } as const

/** What one kind of diode costs and what it saves. */
export interface ProtectionResult {
  readonly id: ProtectionDiodeId | 'own'
  readonly name: string
  /** Error at full scale at each temperature, as a part of it: never above 0. */
  readonly errors: readonly { readonly temperatureC: number; readonly error: number }[]
  /** The worst of them. */
  readonly worstError: number
  /** The overload, at its worst temperature: times full scale through the movement, and A through the diodes. */
  readonly heldTo: number
  readonly diodeA: number
  /** Whether it costs little enough, holds low enough, and lives. */
  readonly isAccurate: boolean
  readonly holds: boolean
  readonly survives: boolean
}

export interface Protection {
  /** Times full scale the overload sends through the bare movement. */
  readonly bareTimes: number
  readonly results: readonly ProtectionResult[]
  /** The kind to take; left out where none will do or none is needed. */
  readonly recommended?: ProtectionDiodeId | 'own'
  /** Why, in sentences. */
  readonly why: readonly string[]
}

/**
 * Diodes back to back across a movement: what each kind costs at full scale and what it holds an overload to, over the
 * temperatures of the bench. Of those that cost little, hold and survive, the one that holds lowest is recommended.
 *
 * @see docs/how-to/protection.md
 */
export function protection(w: ProtectionWish): Protection {
  const { movement: m, range, overload, temperaturesC } = w
  const bare = protectedRange(m, range, undefined, w.setting)
  const timesOf = (a: number): number => Math.abs(a) / m.fullScaleA
  const bareTimes = Math.max(...temperaturesC.map((t) => timesOf(bare.at(overload, t).movementA)))
  const full: Drive = { kind: 'full-scale', times: 1 }
  const kinds: readonly (readonly [string, ProtectionDiode])[] = [
    ...Object.entries(protectionDiodes),
    ...(w.own === undefined ? [] : [['own', w.own] as const]),
  ]
  const results = kinds.map(([id, diode]): ProtectionResult => {
    const guarded = protectedRange(m, range, diode, w.setting)
    const errors = temperaturesC.map((temperatureC) => ({
      temperatureC,
      error: guarded.at(full, temperatureC).movementA / bare.at(full, temperatureC).movementA - 1,
    }))
    const worstError = Math.min(...errors.map((e) => e.error))
    const overloads = temperaturesC.map((t) => guarded.at(overload, t))
    const heldTo = Math.max(...overloads.map((o) => timesOf(o.movementA)))
    const diodeA = Math.max(...overloads.map((o) => o.diodeA))
    const isAccurate = -worstError <= w.mostError
    return {
      id: id as ProtectionResult['id'],
      name: diode.name,
      errors,
      worstError,
      heldTo,
      diodeA,
      isAccurate,
      holds: heldTo <= w.bears,
      survives: diodeA <= diode.mostA,
    }
  })
  return { bareTimes, results, ...choose(w, bareTimes, results) }
}

const percent = (part: number): string => `${Number((Math.abs(part) * 100).toPrecision(2))} %`
const times = (x: number): string => `${Number(x.toPrecision(3))} times`

function choose(
  w: ProtectionWish,
  bareTimes: number,
  results: readonly ProtectionResult[],
): Pick<Protection, 'recommended' | 'why'> {
  const good = results.filter((r) => r.isAccurate && r.holds && r.survives).sort((a, b) => a.heldTo - b.heldTo)
  const [best] = good
  const bare =
    bareTimes <= w.bears
      ? [`The bare movement gets ${times(bareTimes)} full scale, which it bears for a moment (${times(w.bears)}).`]
      : [`The bare movement would get ${times(bareTimes)} full scale, more than the ${times(w.bears)} it bears.`]
  const why = results.map((r) => `${r.name}: ${r === best ? reasonFor(w, r) : reasonAgainst(w, r, best)}`)
  if (best !== undefined && best.heldTo < bareTimes * 0.99) return { recommended: best.id, why: [...bare, ...why] }
  const none =
    best === undefined
      ? 'No kind does it all: put a fuse or a resistor in the lead, or diodes across the whole shunt as well.'
      : 'Diodes across the movement change nothing here: the overload goes through the shunt. Guard the shunt with a fuse.'
  return { why: [...bare, ...why, none] }
}

const reasonFor = (w: ProtectionWish, r: ProtectionResult): string =>
  `costs ${percent(r.worstError)} of the ${percent(w.mostError)} allowed, and holds lowest, ${times(r.heldTo)} full scale.`

function reasonAgainst(w: ProtectionWish, r: ProtectionResult, best: ProtectionResult | undefined): string {
  const faults = [
    ...(r.isAccurate ? [] : [`it costs ${percent(r.worstError)} at full scale, more than ${percent(w.mostError)}`]),
    ...(r.holds ? [] : [`it lets ${times(r.heldTo)} full scale through`]),
    ...(r.survives
      ? []
      : [`the overload sends ${Number(r.diodeA.toPrecision(2))} A through it, which it does not live through`]),
  ]
  if (faults.length > 0) return `${faults.join('; ')}.`
  return `would do, and holds ${times(r.heldTo)} against ${times(best?.heldTo ?? r.heldTo)}.`
}
