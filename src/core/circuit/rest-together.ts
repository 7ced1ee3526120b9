import {
  celsius,
  coolestRest,
  kelvin,
  type SelfHeating,
  type SelfHeatingPart,
  selfHeating,
  selfHeatingDefaults,
} from '#core/physics'
import { type Compiled, setPartTemperature, setTemperature } from './compile.ts'
import { type OperatingPoint, pointOf } from './point.ts'
import { powerInCircuit } from './self-heated.ts'
import { solve } from './solve.ts'

/** A part that heats itself among others that do: what becomes of it with the others where they are. */
export interface HeatedPart {
  readonly ref: string
  /** Thermal resistance from its junction to the air, K/W. */
  readonly rthKPerW: number
  readonly heating: SelfHeating
}

/**
 * A circuit in which several parts heat themselves.
 *
 * - `rest`: all come to rest, and this is the operating point then.
 * - `runaway`: `part` goes on warming up to the ceiling.
 * - `none`: `part` comes to a temperature at which the circuit has no operating point, or its temperature never settles.
 */
export type RestTogether =
  | { readonly kind: 'rest'; readonly point: OperatingPoint; readonly parts: readonly HeatedPart[] }
  | { readonly kind: 'runaway' | 'none'; readonly part: HeatedPart }

export interface RestTogetherOptions {
  /** Junction temperature at which a part is taken to have run away, degC. */
  readonly ceilingC: number
}

/** Junctions move by less than this in the last round, K. */
const closeK = 1e-7

/** Rounds after which temperatures that still move are taken never to settle. */
const mostRounds = 500

/**
 * Where parts of a circuit that heat themselves come to rest; the air and all other parts have the temperature of the
 * circuit. From the temperature of the air each in turn goes to its coolest rest with the others where they are, round by
 * round, until none moves. The circuit is left standing there.
 *
 * What is found is stable as a whole for one part and for two: each is by itself, and the rounds come together only where
 * the determinant of the whole is above 0 as well. So it is for more, where no part takes heat from another.
 *
 * @param rthKPerW thermal resistance from junction to air by part, K/W
 * @throws {FaultError} `not-found` where no such device is in the circuit
 */
export function restTogether(
  c: Compiled,
  rthKPerW: Readonly<Record<string, number>>,
  { ceilingC = selfHeatingDefaults.ceilingC }: Partial<RestTogetherOptions> = {},
): RestTogether {
  const ambientC = celsius(c.temperatureK)
  setTemperature(c, c.temperatureK)
  const range = { ceilingC, stepK: selfHeatingDefaults.stepK }
  const parts = Object.entries(rthKPerW).map(([ref, rth]) => {
    const part: SelfHeatingPart = { ambientC, rthKPerW: rth, powerAt: powerInCircuit(c, ref) }
    return { ref, part, junctionC: ambientC }
  })
  const heatedPart = ({ ref, part }: (typeof parts)[number]): HeatedPart => ({
    ref,
    rthKPerW: part.rthKPerW,
    heating: selfHeating(part, range),
  })
  let last = parts[0]
  for (let round = 0; round < mostRounds; round++) {
    let moved = 0
    for (const p of parts) {
      const rest = coolestRest(p.part, range)
      if (typeof rest === 'string') return { kind: rest, part: heatedPart(p) }
      setPartTemperature(c, p.ref, kelvin(rest.junctionC))
      const by = Math.abs(rest.junctionC - p.junctionC)
      if (by > moved) last = p
      moved = Math.max(moved, by)
      p.junctionC = rest.junctionC
    }
    if (moved <= closeK || parts.length === 1) return restsHere(c, parts, heatedPart)
  }
  return { kind: 'none', part: heatedPart(last!) }
}

interface Resting {
  readonly ref: string
  readonly junctionC: number
}

function restsHere<P extends Resting>(
  c: Compiled,
  parts: readonly P[],
  heatedPart: (p: P) => HeatedPart,
): RestTogether {
  const heated = parts.map((p) => {
    const one = heatedPart(p)
    setPartTemperature(c, p.ref, kelvin(p.junctionC))
    return one
  })
  return { kind: 'rest', point: pointOf(c, solve(c)), parts: heated }
}
