import { operatingPoint } from '#core/circuit'
import { type ESeries, preferredBetween } from '#core/resistor'
import {
  exactly,
  type PartNumbers,
  type Position,
  stageCircuit,
  type TransistorNumbers,
  thermistorOhm,
} from '#core/stage'
import { partsFor, transistor } from './positions.ts'

/** A stage looked at by whole operating points, apart from the search: current at 25 degC, drift, V_CE. */
export function looked(position: Position, part: PartNumbers) {
  const { fromC, toC } = position.demands
  const points = [25, fromC, (fromC + 25) / 2, (25 + toC) / 2, toC].map((temperatureC) => {
    const circuit = stageCircuit(atTemperature(position, temperatureC), partsFor(position, part))
    const q = operatingPoint(circuit, { temperatureC }).devices[position.place]
    if (q?.kind !== 'bipolar') throw new Error('no point')
    return q
  })
  const ic = points[0]!.ic
  return { ic, drift: Math.max(...points.slice(1).map((q) => Math.abs(q.ic / ic - 1))), vce: points[0]!.vce }
}

/** A position whose thermistors have their value at a temperature. */
const atTemperature = (p: Position, temperatureC: number): Position =>
  withOhm(
    p,
    Object.fromEntries(p.template.thermistors.map((t) => [t.ref, thermistorOhm(p.ohm[t.ref]!, t.betaK, temperatureC)])),
  )

export const withOhm = (p: Position, ohm: Readonly<Record<string, number>>): Position => ({
  ...p,
  ohm: { ...p.ohm, ...ohm },
})

export const changed = (changes: readonly { ref: string; toOhm: number }[]): Record<string, number> =>
  Object.fromEntries(changes.map((c) => [c.ref, c.toOhm]))

export const silicon = (gain: number, more: Partial<TransistorNumbers> = {}): TransistorNumbers =>
  transistor({
    name: 'silicon',
    material: 'Si',
    gain: exactly(gain),
    leakageA: exactly(1e-9),
    surface: 1,
    vbeV: exactly(0.62),
    ...more,
  })

/** A choice of values for the resistors that settle a stage, how many of them are changed and what that costs. */
interface Choice {
  readonly ohm: Position['ohm']
  readonly count: number
  readonly cost: number
}

/** Every choice there is, none changed among them, the least change first. */
function choices(position: Position, series: ESeries, span: number): readonly Choice[] {
  const { settles } = position.template
  let all: readonly Choice[] = [{ ohm: {}, count: 0, cost: 0 }]
  for (const ref of settles) {
    const ohm = position.ohm[ref]
    if (ohm === undefined) continue
    const others = preferredBetween(ohm / span, ohm * span, series).filter((r) => Math.abs(r / ohm - 1) > 1e-9)
    all = all.flatMap((one) => [
      { ...one, ohm: { ...one.ohm, [ref]: ohm } },
      ...others.map((r) => ({
        ohm: { ...one.ohm, [ref]: r },
        count: one.count + 1,
        cost: one.cost + Math.abs(Math.log(r / ohm)),
      })),
    ])
  }
  return [...all].sort((a, b) => a.count - b.count || a.cost - b.cost)
}

/** What is tried: a stage, the part it was made for, another, and the values there are. */
export interface Tried {
  readonly position: Position
  readonly part: PartNumbers
  readonly other: PartNumbers
  readonly series: ESeries
  readonly span: number
}

/**
 * The least change, by every choice of values, that brings the current at 25 degC within 5 % and lets it drift no more:
 * nothing where none does.
 *
 * @param holds what else is asked of the stage
 * @param look how a stage is looked at; it gives nothing where the stage has no point
 */
export function leastOfAll(
  { position, part, other, series, span }: Tried,
  holds: (changed: Position) => boolean = () => true,
  look: (position: Position, part: PartNumbers) => Pick<ReturnType<typeof looked>, 'ic' | 'drift'> | undefined = looked,
): Choice | undefined {
  const before = look(position, part)!
  return choices(position, series, span).find(({ ohm }) => {
    const stage = withOhm(position, ohm)
    const got = look(stage, other)
    return (
      got !== undefined &&
      Math.abs(got.ic / before.ic - 1) <= 0.05 &&
      got.drift <= before.drift * (1 + 1e-9) &&
      holds(stage)
    )
  })
}

/** Whether a stage of one transistor has the room it had, or what the signal needs: worked out from V_CE and the load. */
export function hasRoom({ position, part, other }: Tried): (stage: Position) => boolean {
  const before = looked(position, part)
  const load = position.template.id === 'follower' ? 'RE' : 'RC'
  const kept = (n: PartNumbers): number => (n.material === 'Ge' ? 0.2 : 0.3)
  const swing = position.demands.swingV
  return (stage) => {
    const got = looked(stage, other)
    return (
      got.vce >= 0.2 &&
      got.vce - kept(other) >= Math.min(swing, before.vce - kept(part)) - 1e-9 &&
      got.ic * stage.ohm[load]! >= 0.9 * Math.min(swing, before.ic * position.ohm[load]!)
    )
  }
}
