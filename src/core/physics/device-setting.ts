import { FaultError } from '#core/fault'
import { boltzmann, elementaryCharge, zeroCelsius } from './constants.ts'

/** What every device law needs besides its card: constants of nature, and the leak a simulator lays across junctions. */
export interface DeviceSetting {
  /** k/e, V/K. */
  readonly voltsPerKelvin: number
  /** Conductance across every junction, S. It is no part of a device, it keeps open nodes solvable. */
  readonly gminS: number
}

/** Constants of the SI of 2019; a leak of 1e-15 S, which is 10 fA at 10 V. */
export const deviceSettingDefaults: DeviceSetting = {
  voltsPerKelvin: boltzmann.value / elementaryCharge.value,
  gminS: 1e-15,
}

/**
 * k/e of the CODATA adjustment of 2014, V/K, as ngspice 39 has it: 3.4e-7 below that of 2019, which at 0.7 V moves a
 * current by 1e-5.
 */
export const voltsPerKelvin2014 = 1.38064852e-23 / 1.6021766208e-19

/** A card's temperature in kelvin, refused where no law holds: cards give T_NOM in degC. */
export function lawTemperature(temperatureK: number): number {
  if (temperatureK > 0 && Number.isFinite(temperatureK)) return temperatureK
  throw new FaultError({
    code: 'out-of-domain',
    name: 'temperature',
    value: temperatureK,
    allowed: 'a number above 0 K',
  })
}

/** T_NOM of a card in kelvin; 27 degC where it says nothing, as SPICE has it. */
export const nominalTemperature = (tnomC: number | undefined): number =>
  lawTemperature((tnomC ?? 27) + zeroCelsius.value)
