import { FaultError } from '#core/fault'
import { boltzmann, elementaryCharge, zeroCelsius } from './constants.ts'

/**
 * Thermal voltage V_T = kT/e: the step in junction voltage that multiplies current by 2.718.
 *
 * @param temperatureK junction temperature, K; must be above 0
 * @returns V_T, V
 * @throws {FaultError} `out-of-domain` at or below 0 K, or not a finite number
 * @see SI Brochure, 9th ed. (2019), Table 1: k and e are exact
 * @example thermalVoltage(300) // 0.025852
 */
export function thermalVoltage(temperatureK: number): number {
  if (!(temperatureK > 0) || !Number.isFinite(temperatureK))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'temperature',
      value: temperatureK,
      allowed: 'a number above 0 K',
    })
  return (boltzmann.value * temperatureK) / elementaryCharge.value
}

/** Degrees Celsius to kelvin. */
export const kelvin = (celsius: number): number => celsius + zeroCelsius.value

/** Kelvin to degrees Celsius. */
export const celsius = (temperatureK: number): number => temperatureK - zeroCelsius.value
