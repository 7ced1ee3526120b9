import { boltzmann, elementaryCharge } from '#core/physics'
import { formula } from '#core/quantity'

const voltsPerKelvin = boltzmann.value / elementaryCharge.value

const low = [1e-4, 1e-3] as const
const high = [2e-3, 1e-2] as const
const kelvins = [273, 333] as const
const ideality = [1, 2] as const

const grayMeyer = {
  title: 'Gray and Meyer, Analysis and Design of Analog Integrated Circuits',
  standing: 'from memory',
} as const
const twoPoints = { title: 'difference of two points in place of a small signal', standing: 'common practice' } as const

/** Gain for small changes, from two points at one collector voltage. */
export const smallSignalGain = formula({
  id: 'reduce/small-signal-gain',
  version: 1,
  text: 'h_fe = (I_C2 - I_C1) / (I_B2 - I_B1)',
  unit: '1',
  inputs: { collector1: 'A', collector2: 'A', base1: 'A', base2: 'A' },
  symbols: { collector1: 'I_C1', collector2: 'I_C2', base1: 'I_B1', base2: 'I_B2' },
  source: twoPoints,
  evaluate: (x) => (x.collector2 - x.collector1) / (x.base2 - x.base1),
  partials: (x) => {
    const dB = x.base2 - x.base1
    const h = (x.collector2 - x.collector1) / dB
    return { collector1: -1 / dB, collector2: 1 / dB, base1: h / dB, base2: -h / dB }
  },
  domain: { collector1: low, collector2: high, base1: [1e-6, 1e-5], base2: [2e-5, 1e-4] },
})

/** Transconductance of a bipolar transistor at its collector current. */
export const transconductance = formula({
  id: 'reduce/transconductance',
  version: 1,
  text: 'g_m = I_C q / (n k T)',
  unit: 'S',
  inputs: { collector: 'A', ideality: '1', temperature: 'K' },
  symbols: { collector: 'I_C', ideality: 'n', temperature: 'T' },
  source: grayMeyer,
  evaluate: ({ collector, ideality: n, temperature }) => collector / (n * voltsPerKelvin * temperature),
  partials: ({ collector, ideality: n, temperature }) => {
    const perAmpere = 1 / (n * voltsPerKelvin * temperature)
    const g = collector * perAmpere
    return { collector: perAmpere, ideality: -g / n, temperature: -g / temperature }
  },
  domain: { collector: [1e-4, 1e-2], ideality, temperature: kelvins },
})

/** Transconductance from two points; it holds at the logarithmic mean of the two currents. */
export const transconductanceTwoPoints = formula({
  id: 'reduce/transconductance-two-points',
  version: 1,
  text: 'g_m = (I_C2 - I_C1) / (V_BE2 - V_BE1)',
  unit: 'S',
  inputs: { collector1: 'A', collector2: 'A', voltage1: 'V', voltage2: 'V' },
  symbols: { collector1: 'I_C1', collector2: 'I_C2', voltage1: 'V_BE1', voltage2: 'V_BE2' },
  source: twoPoints,
  evaluate: (x) => (x.collector2 - x.collector1) / (x.voltage2 - x.voltage1),
  partials: (x) => {
    const dV = x.voltage2 - x.voltage1
    const g = (x.collector2 - x.collector1) / dV
    return { collector1: -1 / dV, collector2: 1 / dV, voltage1: g / dV, voltage2: -g / dV }
  },
  domain: { collector1: low, collector2: high, voltage1: [0.5, 0.62], voltage2: [0.64, 0.8] },
})

/** Input resistance from gain and collector current; the resistance of the base region is left out. */
export const inputResistance = formula({
  id: 'reduce/input-resistance',
  version: 1,
  text: 'h_ie = h_fe n k T / (q I_C)',
  unit: 'ohm',
  inputs: { gain: '1', ideality: '1', temperature: 'K', collector: 'A' },
  symbols: { gain: 'h_fe', ideality: 'n', temperature: 'T', collector: 'I_C' },
  source: grayMeyer,
  evaluate: ({ gain, ideality: n, temperature, collector }) => (gain * n * voltsPerKelvin * temperature) / collector,
  partials: ({ gain, ideality: n, temperature, collector }) => {
    const r = (gain * n * voltsPerKelvin * temperature) / collector
    return { gain: r / gain, ideality: r / n, temperature: r / temperature, collector: -r / collector }
  },
  domain: { gain: [5, 500], ideality, temperature: kelvins, collector: [1e-4, 1e-2] },
})

/** Input resistance from two points. */
export const inputResistanceTwoPoints = formula({
  id: 'reduce/input-resistance-two-points',
  version: 1,
  text: 'h_ie = (V_BE2 - V_BE1) / (I_B2 - I_B1)',
  unit: 'ohm',
  inputs: { voltage1: 'V', voltage2: 'V', base1: 'A', base2: 'A' },
  symbols: { voltage1: 'V_BE1', voltage2: 'V_BE2', base1: 'I_B1', base2: 'I_B2' },
  source: twoPoints,
  evaluate: (x) => (x.voltage2 - x.voltage1) / (x.base2 - x.base1),
  partials: (x) => {
    const dB = x.base2 - x.base1
    const r = (x.voltage2 - x.voltage1) / dB
    return { voltage1: -1 / dB, voltage2: 1 / dB, base1: r / dB, base2: -r / dB }
  },
  domain: { voltage1: [0.5, 0.62], voltage2: [0.64, 0.8], base1: [1e-6, 1e-5], base2: [2e-5, 1e-4] },
})

/** Resistance seen into the emitter. */
export const emitterResistance = formula({
  id: 'reduce/emitter-resistance',
  version: 1,
  text: 'r_e = n k T / (q I_E)',
  unit: 'ohm',
  inputs: { ideality: '1', temperature: 'K', emitter: 'A' },
  symbols: { ideality: 'n', temperature: 'T', emitter: 'I_E' },
  source: { title: 'Boylestad and Nashelsky, Electronic Devices and Circuit Theory', standing: 'from memory' },
  evaluate: ({ ideality: n, temperature, emitter }) => (n * voltsPerKelvin * temperature) / emitter,
  partials: ({ ideality: n, temperature, emitter }) => {
    const r = (n * voltsPerKelvin * temperature) / emitter
    return { ideality: r / n, temperature: r / temperature, emitter: -r / emitter }
  },
  domain: { ideality, temperature: kelvins, emitter: [1e-4, 1e-2] },
})

const output = {
  inputs: { collector1: 'A', collector2: 'A', voltage1: 'V', voltage2: 'V' },
  symbols: { collector1: 'I_C1', collector2: 'I_C2', voltage1: 'V_CE1', voltage2: 'V_CE2' },
  domain: { collector1: [1e-3, 2e-3], collector2: [2.1e-3, 3e-3], voltage1: [1, 3], voltage2: [4, 12] },
} as const

/** Output conductance from two collector voltages at one base current. */
export const outputConductance = formula({
  ...output,
  id: 'reduce/output-conductance',
  version: 1,
  text: 'h_oe = (I_C2 - I_C1) / (V_CE2 - V_CE1)',
  unit: 'S',
  source: twoPoints,
  evaluate: (x) => (x.collector2 - x.collector1) / (x.voltage2 - x.voltage1),
  partials: (x) => {
    const dV = x.voltage2 - x.voltage1
    const g = (x.collector2 - x.collector1) / dV
    return { collector1: -1 / dV, collector2: 1 / dV, voltage1: g / dV, voltage2: -g / dV }
  },
})

/** Early voltage from two collector voltages; with one base current it comes out nearly the same as with one V_BE. */
export const earlyVoltage = formula({
  ...output,
  id: 'reduce/early-voltage',
  version: 1,
  text: 'V_A = (I_C1 V_CE2 - I_C2 V_CE1) / (I_C2 - I_C1)',
  unit: 'V',
  source: grayMeyer,
  evaluate: (x) => (x.collector1 * x.voltage2 - x.collector2 * x.voltage1) / (x.collector2 - x.collector1),
  partials: (x) => {
    const dI = x.collector2 - x.collector1
    const dV = x.voltage2 - x.voltage1
    return {
      collector1: (x.collector2 * dV) / dI ** 2,
      collector2: (-x.collector1 * dV) / dI ** 2,
      voltage1: -x.collector2 / dI,
      voltage2: x.collector1 / dI,
    }
  },
})

/** Output resistance from the Early voltage. */
export const outputResistance = formula({
  id: 'reduce/output-resistance',
  version: 1,
  text: 'r_o = (V_A + V_CE) / I_C',
  unit: 'ohm',
  inputs: { early: 'V', voltage: 'V', collector: 'A' },
  symbols: { early: 'V_A', voltage: 'V_CE', collector: 'I_C' },
  source: grayMeyer,
  evaluate: ({ early, voltage, collector }) => (early + voltage) / collector,
  partials: ({ early, voltage, collector }) => ({
    early: 1 / collector,
    voltage: 1 / collector,
    collector: -(early + voltage) / collector ** 2,
  }),
  domain: { early: [10, 200], voltage: [1, 12], collector: [1e-4, 1e-2] },
})

/** Small-signal formulas, for the registry. */
export const smallSignalFormulas = [
  smallSignalGain,
  transconductance,
  transconductanceTwoPoints,
  inputResistance,
  inputResistanceTwoPoints,
  emitterResistance,
  outputConductance,
  earlyVoltage,
  outputResistance,
] as const
