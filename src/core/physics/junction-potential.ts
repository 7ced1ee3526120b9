import { bandGap, spiceGapLaw } from './gap.ts'

/** Temperature SPICE counts junction potentials from, K, and the gap of silicon there as it is written in its source. */
const referenceK = 300.15
const referenceGapEv = 1.1150877

/**
 * A junction or surface potential brought from one temperature to another by the law of SPICE:
 * phi(T) / T - p(T) runs through the gap of silicon, with p = -2 V_T (1.5 ln(T / T_0) + E_g terms).
 *
 * @param potentialV at `nominalK`, V
 * @see ngspice 39, diode (junction potential) and MOS level 1 (PHI)
 */
export function junctionPotential(
  potentialV: number,
  nominalK: number,
  temperatureK: number,
  voltsPerKelvin: number,
): number {
  const atReference = ((potentialV - shift(nominalK, voltsPerKelvin)) * referenceK) / nominalK
  return (atReference * temperatureK) / referenceK + shift(temperatureK, voltsPerKelvin)
}

function shift(t: number, kq: number): number {
  const gap = -bandGap(spiceGapLaw, t) / (2 * kq * t) + referenceGapEv / (2 * kq * referenceK)
  return -2 * kq * t * (1.5 * Math.log(t / referenceK) + gap)
}
