import { operatingPoint, setValue } from '#core/circuit'
import type { Demands, Parts, Position } from './position.ts'
import { setAmbient, stageCircuit } from './stage-circuit.ts'
import { makeStage, readPoint, type Stage, settled } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

/** How a stage rests: its point at 25 degC, and how far its current strays over temperature. Parts do not heat themselves. */
export interface Rest {
  readonly ic: number
  readonly vce: number
  /** Greatest change of the current between the coldest and the hottest air, as a share of that at 25 degC. */
  readonly drift: number
  /** Room to each side at 25 degC, V. */
  readonly rooms: readonly number[]
}

/** How a position rests with its parts; nothing where it has no point at some temperature. */
export const restOf = (position: Position, parts: Parts): Rest | undefined => restAt(makeStage(position, parts))

/** Puts values into a stage, ohm by name, and solves it at 25 degC. */
export function settleWith({ c, position }: Stage, ohm: Readonly<Record<string, number>>): boolean {
  for (const [ref, r] of Object.entries(ohm)) setValue(c, ref, r)
  setAmbient(c, position, numbersAtC)
  return settled(c)
}

/**
 * Temperatures at which drift is looked for: both ends, and half the way to them from 25 degC, since with a thermistor the
 * current may be highest on the way.
 */
const driftTemperatures = ({ fromC, toC }: Demands): readonly number[] =>
  [fromC, toC].flatMap((end) => [(numbersAtC + end) / 2, end])

/** How a stage rests with the values that stand in it. */
export function restAt(s: Stage): Rest | undefined {
  const { c, position } = s
  setAmbient(c, position, numbersAtC)
  if (!settled(c)) return undefined
  const { ic, vce, rooms } = readPoint(s, numbersAtC)
  let drift = 0
  for (const t of driftTemperatures(position.demands)) {
    setAmbient(c, position, t)
    if (!settled(c)) return undefined
    drift = Math.max(drift, Math.abs(readPoint(s, t).ic / ic - 1))
  }
  return { ic, vce, rooms, drift }
}

/**
 * Current of every place at 25 degC, A, as magnitudes; places without a point, and those that carry none, are left out.
 * It says at which current the numbers of a published type are to be taken.
 */
export function placeCurrents(position: Position, parts: Parts): Readonly<Record<string, number>> {
  const { devices } = operatingPoint(stageCircuit(position, parts), { temperatureC: numbersAtC })
  const currents = Object.entries(devices).map(([ref, d]) => [ref, Math.abs('ic' in d ? d.ic : 'if' in d ? d.if : 0)])
  return Object.fromEntries(currents.filter(([, current]) => (current as number) > 0))
}
