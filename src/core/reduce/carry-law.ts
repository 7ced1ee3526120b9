import { boltzmann, elementaryCharge } from '#core/physics'
import { formula } from '#core/quantity'

const voltsPerKelvin = boltzmann.value / elementaryCharge.value

/**
 * Leakage at another voltage. `m` is 0 where all of it is the junction's own, which a few tenths of a volt bring out
 * whole; 1 where all of it creeps over the surface as through a resistor; above 1 where gain rises with it.
 */
export const leakageAtVoltage = formula({
  id: 'reduce/leakage-at-voltage',
  version: 1,
  text: 'I(V2) = I(V1) (V2 / V1)^m',
  unit: 'A',
  inputs: { current: 'A', from: 'V', to: 'V', exponent: '1' },
  symbols: { current: 'I(V1)', from: 'V1', to: 'V2', exponent: 'm' },
  source: { title: 'junction leakage is flat, surface leakage proportional to voltage', standing: 'common practice' },
  evaluate: ({ current, from, to, exponent }) => current * Math.exp(exponent * Math.log(to / from)),
  partials: ({ current, from, to, exponent }) => {
    const factor = Math.exp(exponent * Math.log(to / from))
    const i = current * factor
    return { current: factor, from: (-exponent * i) / from, to: (exponent * i) / to, exponent: i * Math.log(to / from) }
  },
  domain: { current: [1e-9, 1e-3], from: [1, 9], to: [1, 30], exponent: [0, 1.8] },
})

/** Gain at a neighbouring operating point. */
export const gainAtPoint = formula({
  id: 'reduce/gain-at-point',
  version: 1,
  text: 'h(2) = h(1) (I_C2 / I_C1)^p (V_CE2 / V_CE1)^s',
  unit: '1',
  inputs: { gain: '1', current1: 'A', current2: 'A', power: '1', voltage1: 'V', voltage2: 'V', slope: '1' },
  symbols: {
    gain: 'h(1)',
    current1: 'I_C1',
    current2: 'I_C2',
    power: 'p',
    voltage1: 'V_CE1',
    voltage2: 'V_CE2',
    slope: 's',
  },
  source: {
    title: 'gain changes slowly near its peak and a little with collector voltage',
    standing: 'common practice',
  },
  evaluate: (x) =>
    x.gain * Math.exp(x.power * Math.log(x.current2 / x.current1) + x.slope * Math.log(x.voltage2 / x.voltage1)),
  partials: (x) => {
    const factor = Math.exp(x.power * Math.log(x.current2 / x.current1) + x.slope * Math.log(x.voltage2 / x.voltage1))
    const h = x.gain * factor
    return {
      gain: factor,
      current1: (-x.power * h) / x.current1,
      current2: (x.power * h) / x.current2,
      power: h * Math.log(x.current2 / x.current1),
      voltage1: (-x.slope * h) / x.voltage1,
      voltage2: (x.slope * h) / x.voltage2,
      slope: h * Math.log(x.voltage2 / x.voltage1),
    }
  },
  domain: {
    gain: [5, 500],
    current1: [1e-3, 3e-3],
    current2: [1e-3, 9e-3],
    power: [-0.25, 0.25],
    voltage1: [1, 9],
    voltage2: [1, 12],
    slope: [0, 0.2],
  },
})

/** Forward voltage of a junction at another current. */
export const voltageAtCurrent = formula({
  id: 'reduce/voltage-at-current',
  version: 1,
  text: 'V(I2) = V(I1) + n (k T / q) ln(I2 / I1)',
  unit: 'V',
  inputs: { voltage: 'V', ideality: '1', temperature: 'K', from: 'A', to: 'A' },
  symbols: { voltage: 'V(I1)', ideality: 'n', temperature: 'T', from: 'I1', to: 'I2' },
  source: { title: 'Sze, Physics of Semiconductor Devices', standing: 'from memory' },
  evaluate: (x) => x.voltage + x.ideality * voltsPerKelvin * x.temperature * Math.log(x.to / x.from),
  partials: (x) => {
    const perLog = x.ideality * voltsPerKelvin * x.temperature
    const log = Math.log(x.to / x.from)
    return {
      voltage: 1,
      ideality: voltsPerKelvin * x.temperature * log,
      temperature: x.ideality * voltsPerKelvin * log,
      from: -perLog / x.from,
      to: perLog / x.to,
    }
  },
  domain: { voltage: [0.1, 0.9], ideality: [1, 2], temperature: [273, 333], from: [1e-4, 1e-2], to: [1e-4, 1e-2] },
})

/** Laws that carry a value to another operating point, for the registry. */
export const carryFormulas = [leakageAtVoltage, gainAtPoint, voltageAtCurrent] as const
