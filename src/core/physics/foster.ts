import { FaultError } from '#core/fault'

/** One pole of a thermal path: a resistance and the time constant at which it warms. */
export interface ThermalPole {
  readonly rKPerW: number
  /** Above 0. */
  readonly tauS: number
}

/** Constant power from one time to another. */
export interface PowerPulse {
  readonly onS: number
  readonly offS: number
  readonly powerW: number
}

/** Share of its end value that a pole has reached after a time: 1 - exp(-t / tau). */
const reached = (pole: ThermalPole, seconds: number): number => (seconds <= 0 ? 0 : -Math.expm1(-seconds / pole.tauS))

/**
 * Transient thermal impedance of a Foster network: Z_th(t) = sum of R_k (1 - exp(-t / tau_k)). With one pole, that of
 * `transientRise`.
 *
 * @param seconds since the power came on
 * @returns K/W; 0 before
 * @see JESD51-14: thermal impedance as a Foster network (from memory)
 * @example thermalImpedance([{ rKPerW: 250, tauS: 8 }], 8) // 158.03
 */
export const thermalImpedance = (poles: readonly ThermalPole[], seconds: number): number =>
  poles.reduce((sum, pole) => sum + pole.rKPerW * reached(pole, seconds), 0)

/**
 * Rise of a junction over ambient after pulses of power: each pulse is a step on and a step off, and steps add, since
 * the network is linear.
 *
 * @param seconds on the clock of the pulses
 * @returns K
 * @example pulsedRise([{ rKPerW: 250, tauS: 8 }], [{ onS: 1, offS: 4, powerW: 0.12 }], 4) // 9.38
 */
export const pulsedRise = (poles: readonly ThermalPole[], pulses: readonly PowerPulse[], seconds: number): number =>
  pulses.reduce((sum, { onS, offS, powerW }) => {
    const on = thermalImpedance(poles, seconds - onS)
    return sum + powerW * (on - thermalImpedance(poles, seconds - offS))
  }, 0)

/**
 * Highest rise in a train of equal pulses that has gone on for long:
 * P sum of R_k (1 - exp(-t_on / tau_k)) / (1 - exp(-T / tau_k)).
 *
 * @param onS length of a pulse
 * @param periodS from the start of a pulse to the start of the next, no shorter than the pulse
 * @returns K
 * @throws {FaultError} `out-of-domain` where the period is shorter than the pulse
 * @see JESD51-14 (from memory)
 */
export function trainPeak(poles: readonly ThermalPole[], powerW: number, onS: number, periodS: number): number {
  if (!(onS > 0 && periodS >= onS))
    throw new FaultError({ code: 'out-of-domain', name: 'period', value: periodS, allowed: `at least the ${onS} s on` })
  return powerW * poles.reduce((sum, p) => sum + (p.rKPerW * reached(p, onS)) / reached(p, periodS), 0)
}
