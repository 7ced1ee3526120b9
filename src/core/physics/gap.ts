import type { Source } from '#core/quantity'
import { deviceSettingDefaults } from './device-setting.ts'
import type { LawMaterial } from './temperature-laws.ts'

/** Constants of E_g(T) = E_0 - a T^2 / (T + b): E_0 in eV, a in eV/K, b in K. */
export interface GapLaw {
  readonly gapEv: number
  readonly slopeEvPerK: number
  readonly offsetK: number
  readonly source: Source
}

const thurmond: Source = {
  title: 'C. D. Thurmond, J. Electrochem. Soc. 122 (1975), as in Sze, Physics of Semiconductor Devices',
  standing: 'from memory',
}

/** Band gaps of silicon and germanium. */
export const gapLaws: Readonly<Record<LawMaterial, GapLaw>> = {
  Si: { gapEv: 1.17, slopeEvPerK: 4.73e-4, offsetK: 636, source: thurmond },
  Ge: { gapEv: 0.7437, slopeEvPerK: 4.774e-4, offsetK: 235, source: thurmond },
}

/** The gap of silicon as SPICE computes it inside its temperature laws (ngspice 39 manual, eq. 7.7). */
export const spiceGapLaw: GapLaw = {
  gapEv: 1.16,
  slopeEvPerK: 7.02e-4,
  offsetK: 1108,
  source: { title: 'ngspice 39 manual', where: 'eq. 7.7' },
}

/**
 * Band gap at a temperature, eV.
 *
 * @param temperatureK from 0 to about 800 K
 * @see Y. P. Varshni, Physica 34 (1967)
 * @example bandGap(gapLaws.Si, 300) // 1.1245
 */
export const bandGap = (law: GapLaw, temperatureK: number): number =>
  law.gapEv - (law.slopeEvPerK * temperatureK * temperatureK) / (temperatureK + law.offsetK)

/** Densities of states at 300 K, 1/cm^3, and the gap they go with, eV. */
export interface IntrinsicLaw {
  readonly conduction300: number
  readonly valence300: number
  readonly gapEv: number
  readonly source: Source
}

const zeghbroeck: Source = {
  title: 'B. Van Zeghbroeck, Principles of Semiconductor Devices',
  where: 'example of intrinsic densities',
}

/** Effective densities of states of silicon and germanium; the gap is held constant, as the example does. */
export const intrinsicLaws: Readonly<Record<LawMaterial, IntrinsicLaw>> = {
  Si: { conduction300: 2.82e19, valence300: 1.83e19, gapEv: 1.12, source: zeghbroeck },
  Ge: { conduction300: 1.05e19, valence300: 3.92e18, gapEv: 0.66, source: zeghbroeck },
}

/**
 * Intrinsic carrier density n_i = sqrt(N_C N_V) exp(-E_g / 2kT), with N_C and N_V rising as T^1.5, 1/cm^3.
 *
 * Printed values differ: silicon at 300 K from 8.8e9 here by way of 9.65e9 (Altermatt, 2003) to 1.45e10 in old books.
 *
 * @param temperatureK 250 to 450 K
 * @example intrinsicDensity('Ge', 300) // 1.83e13
 */
export function intrinsicDensity(
  material: LawMaterial,
  temperatureK: number,
  voltsPerKelvin = deviceSettingDefaults.voltsPerKelvin,
): number {
  const { conduction300, valence300, gapEv } = intrinsicLaws[material]
  const states = Math.sqrt(conduction300 * valence300) * (temperatureK / 300) ** 1.5
  return states * Math.exp(-gapEv / (2 * voltsPerKelvin * temperatureK))
}
