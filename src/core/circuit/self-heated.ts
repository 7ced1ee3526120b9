import { celsius, kelvin, type PowerAt, type SelfHeating, type SelfHeatingOptions, selfHeating } from '#core/physics'
import type { Circuit } from './circuit.ts'
import { type Compiled, type CompileOptions, compileCircuit, instanceNamed, setPartTemperature } from './compile.ts'
import { devicePower, type OperatingPoint, pointOf } from './point.ts'
import { reset, settle, solve } from './solve.ts'
import { stamp } from './stamp.ts'

/** A circuit in which one part heats itself: how that ends, and the operating point where the part comes to rest. */
export interface SelfHeatedPoint {
  readonly heating: SelfHeating
  /** Left out where the part does not come to rest. */
  readonly point?: OperatingPoint
}

/**
 * Power of one part of a circuit by its own junction temperature, all other parts staying as they are: what
 * `selfHeating`, `heatingCurve` and `timeToReach` ask for. Each point is looked for from the one before.
 *
 * @throws {FaultError} `not-found` where no such device is in the circuit
 */
export function powerInCircuit(c: Compiled, ref: string): PowerAt {
  const part = instanceNamed(c, ref)
  return (junctionC) => {
    setPartTemperature(c, ref, kelvin(junctionC))
    if (!settle(c)) {
      reset(c)
      if (!solve(c).converged) return undefined
    }
    stamp(part, c.x, true)
    return devicePower(part, c.x)
  }
}

/**
 * Operating point of a circuit in which one part heats itself; the air and all other parts have the temperature of the
 * circuit.
 *
 * @param ref the part
 * @param rthKPerW from its junction to the air
 * @throws {FaultError} `not-found` where no such device is in the circuit
 */
export function selfHeatedPoint(
  circuit: Circuit,
  ref: string,
  rthKPerW: number,
  options: CompileOptions & Partial<SelfHeatingOptions> = {},
): SelfHeatedPoint {
  const c = compileCircuit(circuit, options)
  const powerAt = powerInCircuit(c, ref)
  const heating = selfHeating({ ambientC: celsius(c.temperatureK), rthKPerW, powerAt }, options)
  if (heating.kind !== 'stable') return { heating }
  setPartTemperature(c, ref, kelvin(heating.rest.junctionC))
  return { heating, point: pointOf(c, solve(c)) }
}
