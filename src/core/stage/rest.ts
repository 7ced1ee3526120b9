import { operatingPoint, setValue } from '#core/circuit'
import type { Demands, Parts, Position } from './position.ts'
import { stageCircuit } from './stage-circuit.ts'
import { comesNearRest, comesToRest, makeStage, readPlace, readPoint, type Stage } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

/**
 * How a stage rests: its point in air of 25 degC, and how far its current strays over temperature. The part that is looked
 * at heats itself, where its thermal resistance is known.
 */
export interface Rest {
  readonly ic: number
  readonly vce: number
  /** Greatest change of the current between the coldest and the hottest air, as a share of that at 25 degC. */
  readonly drift: number
  /** Room to each side at 25 degC, V. */
  readonly rooms: readonly number[]
}

/** How a position rests with its parts; nothing where it has no point at some temperature, or its part runs away. */
export const restOf = (position: Position, parts: Parts): Rest | undefined => restAt(makeStage(position, parts))

/** Puts values into a stage, ohm by name. */
export function putValues({ c }: Stage, ohm: Readonly<Record<string, number>>): void {
  for (const [ref, r] of Object.entries(ohm)) setValue(c, ref, r)
}

/** Brings a stage near its rest in air of 25 degC with the values that stand in it; whether it does come to rest. */
export const nearlyRestsCool = (s: Stage): boolean => comesNearRest(s, numbersAtC)

const isAtRest = (s: Stage, ambientC: number): boolean => typeof comesToRest(s, ambientC) !== 'string'

/**
 * Temperatures at which drift is looked for: both ends, and half the way to them from 25 degC, since with a thermistor the
 * current may be highest on the way. The hottest, where most stages drift most, comes first.
 */
const driftTemperatures = ({ fromC, toC }: Demands): readonly number[] =>
  [toC, fromC].flatMap((end) => [end, (numbersAtC + end) / 2])

/**
 * How a stage rests with the values that stand in it.
 *
 * @param isLost told the rest as far as it is known, its drift a lower bound: where it is so, no more is looked at
 * @param rests brings the stage to rest at a temperature of the air
 * @returns nothing where there is no point at some temperature, the part runs away, or it is lost
 */
export function restAt(
  s: Stage,
  isLost: (soFar: Rest) => boolean = () => false,
  rests: (s: Stage, ambientC: number) => boolean = isAtRest,
): Rest | undefined {
  if (!rests(s, numbersAtC)) return undefined
  const { ic, vce, rooms } = readPoint(s, numbersAtC)
  let rest: Rest = { ic, vce, rooms, drift: 0 }
  for (const t of driftTemperatures(s.position.demands)) {
    if (isLost(rest)) return undefined
    if (!rests(s, t)) return undefined
    rest = { ...rest, drift: Math.max(rest.drift, Math.abs(readPlace(s).ic / ic - 1)) }
  }
  return rest
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
