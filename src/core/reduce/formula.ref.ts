/**
 * Check values of textbook formulas (equations from memory, evaluated with exact k and q), and propagations computed
 * with the Python package uncertainties 3.1.6 (first order, nine digits).
 */

/** Millman and Halkias, ch. 5: I_C 2.35 mA, I_B 20 uA, I_CBO 5 uA. */
export const cutoffCheck = { collector: 2.35e-3, base: 20e-6, cutoff: 5e-6, corrected: 93.80000000000001, plain: 117.5 }

/** Boylestad and Nashelsky, 3.5: alpha 0.996 and I_CBO 1 uA give I_CEO 0.25 mA. */
export const alphaCheck = { alpha: 0.996, cutoff: 1e-6, leakage: 0.0002499999999999998 }

/** Gray and Meyer: 1 mA at 298.15 K; gain 100. Boylestad and Nashelsky: emitter at 300 K. */
export const smallSignalChecks = {
  transconductance: 0.038921744496227005,
  inputResistance: 2569.257912108585,
  emitterResistance: 25.851999786435535,
}

/** Early voltage from 1.00 mA at 2 V and 1.10 mA at 12 V. */
export const earlyCheck = 97.99999999999999

/** Three points 1 : 10 : 100 in current: R_S = (V3 - 2 V2 + V1) / (81 I1). */
export const threePointFactor = 81

interface Propagation {
  readonly id: string
  readonly formula: string
  readonly inputs: Readonly<Record<string, readonly [value: number, u: number]>>
  readonly correlation?: readonly (readonly [a: string, b: string, r: number])[]
  readonly value: number
  readonly u: number
}

/** Values, standard uncertainties and correlations of the inputs, and the first-order result. */
export const propagations: readonly Propagation[] = [
  {
    id: 'corrected gain',
    formula: 'reduce/gain-less-leakage',
    inputs: { collector: [0.00102, 1.2e-5], leakage: [0.00015, 5.77350269e-6], base: [1e-5, 1.5e-7] },
    value: 87,
    u: 1.86449949,
  },
  {
    id: 'corrected gain, readings correlated',
    formula: 'reduce/gain-less-leakage',
    inputs: { collector: [0.00102, 1.5e-5], leakage: [0.00015, 6e-6], base: [1e-5, 1.5e-7] },
    correlation: [
      ['collector', 'leakage', 0.85],
      ['collector', 'base', 0.6],
      ['leakage', 'base', 0.5],
    ],
    value: 87,
    u: 1.10318856,
  },
  {
    id: 'gain from two points',
    formula: 'reduce/small-signal-gain',
    inputs: {
      collector1: [0.00095, 4e-6],
      collector2: [0.00125, 5e-6],
      base1: [1.2e-5, 1.5e-7],
      base2: [1.55e-5, 1.8e-7],
    },
    value: 85.7142857,
    u: 6.02272525,
  },
  {
    id: 'gain from two points, readings correlated',
    formula: 'reduce/small-signal-gain',
    inputs: {
      collector1: [0.00095, 8e-6],
      collector2: [0.00125, 1e-5],
      base1: [1.2e-5, 2.5e-7],
      base2: [1.55e-5, 3e-7],
    },
    correlation: [
      ['collector1', 'collector2', 0.9],
      ['base1', 'base2', 0.9],
    ],
    value: 85.7142857,
    u: 3.482568,
  },
  {
    id: 'transconductance',
    formula: 'reduce/transconductance',
    inputs: { collector: [0.001, 1e-5], ideality: [1, 0], temperature: [297.15, 1.73205081] },
    value: 0.0390527279,
    u: 0.000452027198,
  },
  {
    id: 'leakage brought to 25 degC, doubling every 9 K; u of the doublings is u of the interval over 81 K^2',
    formula: 'physics/leakage-at-temperature',
    inputs: {
      current: [8.4e-6, 2e-7],
      from: [31, 0.866025404],
      to: [25, 0],
      doublings: [1 / 9, 0.612372436 / 81],
    },
    value: 5.29166841e-6,
    u: 4.1003154e-7,
  },
  {
    id: 'ideality, voltages correlated',
    formula: 'reduce/ideality-two-points',
    inputs: {
      voltage1: [0.552, 0.0008],
      voltage2: [0.671, 0.0009],
      current1: [0.0001, 7.34846923e-7],
      current2: [0.001, 6.12372436e-6],
      temperature: [296.15, 0.577350269],
    },
    correlation: [['voltage1', 'voltage2', 0.75]],
    value: 2.02510081,
    u: 0.0139109385,
  },
  {
    id: 'gain from two close points',
    formula: 'reduce/small-signal-gain',
    inputs: {
      collector1: [0.001, 4e-6],
      collector2: [0.00112, 4e-6],
      base1: [1.2e-5, 2e-7],
      base2: [1.35e-5, 2.2e-7],
    },
    value: 80,
    u: 16.2994206,
  },
]
