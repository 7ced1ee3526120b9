import { formula, type Source } from '#core/quantity'
import { boltzmann, elementaryCharge } from './constants.ts'

/** The two materials whose laws are known here. */
export type LawMaterial = 'Ge' | 'Si'

/**
 * A number of a law that is known only roughly: every value from `centre - halfWidth` to `centre + halfWidth` is taken
 * as equally likely, and the doubt stands in every budget where the law was used.
 */
export interface DoubtfulNumber {
  readonly centre: number
  readonly halfWidth: number
  /** What it is and how far it may be off, for people. */
  readonly says: string
  readonly source: Source
}

type ByMaterial = Readonly<Record<LawMaterial, DoubtfulNumber>>

const practice = (title: string): Source => ({ title, standing: 'common practice' })

/**
 * Doublings of a transistor's leakage per kelvin.
 *
 * Germanium: practice says a doubling every 10 K, theory (Millman and Halkias) 6.4 K, the published limits of the 2N404
 * at 25 and 80 degC 13 K, and the part of the leakage that creeps over the surface hardly changes. Silicon: theory 8.4 K
 * or 4.2 K, the limits of the BC107 at 25 and 125 degC 12 K, and in leakages a hand tester can read the surface often
 * has the greater share.
 */
export const leakageDoublings: ByMaterial = {
  Ge: {
    centre: 0.1,
    halfWidth: 0.055,
    says: 'germanium leakage doubles every 10 K; somewhere between 6.5 K and 22 K',
    source: practice('doubling every 10 K; theory 6.4 K, 2N404 limits 13 K'),
  },
  Si: {
    centre: 0.1,
    halfWidth: 0.1,
    says: 'silicon leakage doubles every 10 K; somewhere between 5 K and not at all',
    source: practice('doubling every 10 K; theory 4.2 K to 8.4 K, BC107 limits 12 K, surface leakage steady'),
  },
}

/** Doublings of open-base leakage per kelvin: the gain that multiplies it rises as well. */
export const openBaseDoublings: ByMaterial = {
  Ge: {
    centre: 0.11,
    halfWidth: 0.06,
    says: 'germanium open-base leakage doubles every 9 K; somewhere between 6 K and 20 K',
    source: practice('as I_CBO, and gain rises 0.5 % for each kelvin besides'),
  },
  Si: leakageDoublings.Si,
}

/** Doublings of a diode's reverse current per kelvin; in point-contact germanium much of it is steady. */
export const reverseDoublings: ByMaterial = {
  Ge: {
    centre: 0.07,
    halfWidth: 0.07,
    says: 'germanium reverse current doubles every 14 K; somewhere between 7 K and not at all',
    source: practice('junction diodes double every 8 K to 10 K, point contacts hardly change'),
  },
  Si: leakageDoublings.Si,
}

/** Change of V_BE at constant current, V/K. */
export const baseVoltageSlope: ByMaterial = {
  Ge: {
    centre: -2.0e-3,
    halfWidth: 0.5e-3,
    says: 'V_BE falls 2 mV for each kelvin, give or take 0.5 mV',
    source: practice('germanium -1.8 mV/K to -2.1 mV/K at milliamperes'),
  },
  Si: {
    centre: -2.0e-3,
    halfWidth: 0.5e-3,
    says: 'V_BE falls 2 mV for each kelvin, give or take 0.5 mV',
    source: practice('silicon -2 mV/K, to -2.5 mV/K at small currents'),
  },
}

/** Change of a diode's forward voltage at constant current, V/K. */
export const forwardVoltageSlope: ByMaterial = {
  Ge: {
    centre: -1.6e-3,
    halfWidth: 0.6e-3,
    says: 'V_F falls 1.6 mV for each kelvin, give or take 0.6 mV',
    source: practice('less than 2 mV/K where series resistance has a share'),
  },
  Si: {
    centre: -1.8e-3,
    halfWidth: 0.7e-3,
    says: 'V_F falls 1.8 mV for each kelvin, give or take 0.7 mV',
    source: practice('-1.2 mV/K at large currents to -2.5 mV/K at small ones'),
  },
}

/** Relative change of gain per kelvin. */
export const gainSlope: ByMaterial = {
  Ge: {
    centre: 0.005,
    halfWidth: 0.005,
    says: 'gain rises 0.5 % for each kelvin; somewhere between nothing and 1 %',
    source: practice('+0.5 %/K; textbook germanium table 55 to 90 from 25 to 75 degC'),
  },
  Si: {
    centre: 0.005,
    halfWidth: 0.005,
    says: 'gain rises 0.5 % for each kelvin; somewhere between nothing and 1 %',
    source: practice('+0.5 %/K; textbook silicon table 50 to 80 from 25 to 100 degC'),
  },
}

const current = [1e-9, 1e-2] as const
const celsiusRange = [0, 50] as const

/** Leakage at another temperature. `r` is doublings per kelvin: 0.1/K is a doubling every 10 K. */
export const leakageAtTemperature = formula({
  id: 'physics/leakage-at-temperature',
  version: 1,
  text: 'I(T2) = I(T1) 2^(r (T2 - T1))',
  unit: 'A',
  inputs: { current: 'A', from: 'degC', to: 'degC', doublings: '1/K' },
  symbols: { current: 'I(T1)', from: 'T1', to: 'T2', doublings: 'r' },
  source: {
    title: 'Millman and Halkias, Integrated Electronics (1972)',
    where: 'leakage doubles about every 10 K (from memory)',
    standing: 'common practice',
  },
  evaluate: ({ current, from, to, doublings }) => current * Math.exp(Math.LN2 * doublings * (to - from)),
  partials: ({ current, from, to, doublings }) => {
    const factor = Math.exp(Math.LN2 * doublings * (to - from))
    const slope = current * factor * Math.LN2
    return { current: factor, from: -slope * doublings, to: slope * doublings, doublings: slope * (to - from) }
  },
  domain: { current, from: celsiusRange, to: celsiusRange, doublings: [0, 0.2] },
})

/** V_BE or V_F at another temperature, at the same current. */
export const voltageAtTemperature = formula({
  id: 'physics/voltage-at-temperature',
  version: 1,
  text: 'V(T2) = V(T1) + c (T2 - T1)',
  unit: 'V',
  inputs: { voltage: 'V', from: 'degC', to: 'degC', slope: 'V/K' },
  symbols: { voltage: 'V(T1)', from: 'T1', to: 'T2', slope: 'c' },
  source: { title: 'junction voltage falls about 2 mV/K at constant current', standing: 'common practice' },
  evaluate: ({ voltage, from, to, slope }) => voltage + slope * (to - from),
  partials: ({ from, to, slope }) => ({ voltage: 1, from: -slope, to: slope, slope: to - from }),
  domain: { voltage: [0.1, 1], from: celsiusRange, to: celsiusRange, slope: [-3e-3, -1e-3] },
})

/** Gain at another temperature, at the same current. */
export const gainAtTemperature = formula({
  id: 'physics/gain-at-temperature',
  version: 1,
  text: 'h(T2) = h(T1) exp(g (T2 - T1))',
  unit: '1',
  inputs: { gain: '1', from: 'degC', to: 'degC', slope: '1/K' },
  symbols: { gain: 'h(T1)', from: 'T1', to: 'T2', slope: 'g' },
  source: { title: 'gain rises about 0.5 % for each kelvin', standing: 'common practice' },
  evaluate: ({ gain, from, to, slope }) => gain * Math.exp(slope * (to - from)),
  partials: ({ gain, from, to, slope }) => {
    const factor = Math.exp(slope * (to - from))
    const h = gain * factor
    return { gain: factor, from: -h * slope, to: h * slope, slope: h * (to - from) }
  },
  domain: { gain: [1, 1000], from: celsiusRange, to: celsiusRange, slope: [0, 0.01] },
})

const voltsPerKelvin = boltzmann.value / elementaryCharge.value

/** How many times larger a saturation current is at another temperature (SPICE law). */
export const saturationRatio = formula({
  id: 'physics/saturation-ratio',
  version: 1,
  text: 'I_S(T2)/I_S(T1) = (T2/T1)^X exp((E_G q/k) (1/T1 - 1/T2))',
  unit: '1',
  inputs: { from: 'K', to: 'K', gap: 'V', power: '1' },
  symbols: { from: 'T1', to: 'T2', gap: 'E_G', power: 'X' },
  source: { title: 'ngspice 39 manual', where: 'eq. 7.10, ideality 1' },
  evaluate: ({ from, to, gap, power }) => (to / from) ** power * Math.exp((gap / voltsPerKelvin) * (1 / from - 1 / to)),
  partials: ({ from, to, gap, power }) => {
    const ratio = (to / from) ** power * Math.exp((gap / voltsPerKelvin) * (1 / from - 1 / to))
    return {
      from: ratio * (-power / from - gap / voltsPerKelvin / from ** 2),
      to: ratio * (power / to + gap / voltsPerKelvin / to ** 2),
      gap: (ratio * (1 / from - 1 / to)) / voltsPerKelvin,
      power: ratio * Math.log(to / from),
    }
  },
  domain: { from: [273, 303], to: [293, 333], gap: [0.6, 1.2], power: [2, 3] },
})

/** Relative slope of a junction's leakage with temperature by theory; ln 2 divided by it is the doubling interval. */
export const leakageSlope = formula({
  id: 'physics/leakage-slope',
  version: 1,
  text: 'dln(I)/dT = m/T + V_G q/(eta k T^2)',
  unit: '1/K',
  inputs: { temperature: 'K', power: '1', gap: 'V', emission: '1' },
  symbols: { temperature: 'T', power: 'm', gap: 'V_G', emission: 'eta' },
  source: { title: 'Millman and Halkias, Integrated Electronics (1972)', where: '3-5', standing: 'from memory' },
  evaluate: ({ temperature: t, power, gap, emission }) => power / t + gap / (emission * voltsPerKelvin * t * t),
  partials: ({ temperature: t, power, gap, emission }) => ({
    temperature: -power / t ** 2 - (2 * gap) / (emission * voltsPerKelvin * t ** 3),
    power: 1 / t,
    gap: 1 / (emission * voltsPerKelvin * t * t),
    emission: -gap / (emission ** 2 * voltsPerKelvin * t * t),
  }),
  domain: { temperature: [273, 333], power: [1.5, 3], gap: [0.7, 1.3], emission: [1, 2] },
})

/** Slope of V_BE with temperature at constant current, by theory. */
export const baseVoltageTheory = formula({
  id: 'physics/base-voltage-slope',
  version: 1,
  text: 'dV_BE/dT = (V_BE - E_G - X k T/q) / T',
  unit: 'V/K',
  inputs: { voltage: 'V', gap: 'V', power: '1', temperature: 'K' },
  symbols: { voltage: 'V_BE', gap: 'E_G', power: 'X', temperature: 'T' },
  source: { title: 'Sze, Physics of Semiconductor Devices', standing: 'from memory' },
  evaluate: ({ voltage, gap, power, temperature: t }) => (voltage - gap - power * voltsPerKelvin * t) / t,
  partials: ({ voltage, gap, temperature: t }) => ({
    voltage: 1 / t,
    gap: -1 / t,
    power: -voltsPerKelvin,
    temperature: -(voltage - gap) / t ** 2,
  }),
  domain: { voltage: [0.1, 0.8], gap: [0.6, 1.25], power: [2, 3.5], temperature: [273, 333] },
})

/** Gain at another temperature by the power law of SPICE cards. */
export const gainPowerLaw = formula({
  id: 'physics/gain-power-law',
  version: 1,
  text: 'h(T2)/h(T1) = (T2/T1)^X_TB',
  unit: '1',
  inputs: { from: 'K', to: 'K', power: '1' },
  symbols: { from: 'T1', to: 'T2', power: 'X_TB' },
  source: { title: 'ngspice 39 manual', where: 'eq. 1.2' },
  evaluate: ({ from, to, power }) => (to / from) ** power,
  partials: ({ from, to, power }) => {
    const ratio = (to / from) ** power
    return { from: (-power * ratio) / from, to: (power * ratio) / to, power: ratio * Math.log(to / from) }
  },
  domain: { from: [273, 303], to: [293, 333], power: [0.5, 2.5] },
})

/** Every temperature law, for the registry. */
export const temperatureFormulas = [
  leakageAtTemperature,
  voltageAtTemperature,
  gainAtTemperature,
  saturationRatio,
  leakageSlope,
  baseVoltageTheory,
  gainPowerLaw,
] as const
