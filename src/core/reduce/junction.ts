import { boltzmann, elementaryCharge } from '#core/physics'
import { formula } from '#core/quantity'

const voltsPerKelvin = boltzmann.value / elementaryCharge.value

const derivedHere = {
  title: 'V = n (k T / q) ln(I / I_S) + I R_S taken at two or three points',
  where: 'Sze, Physics of Semiconductor Devices (from memory)',
} as const

/** Ideality of a junction from two points, series resistance left out. */
export const idealityTwoPoints = formula({
  id: 'reduce/ideality-two-points',
  version: 1,
  text: 'n = (V2 - V1) q / (k T ln(I2 / I1))',
  unit: '1',
  inputs: { voltage1: 'V', voltage2: 'V', current1: 'A', current2: 'A', temperature: 'K' },
  symbols: { voltage1: 'V1', voltage2: 'V2', current1: 'I1', current2: 'I2', temperature: 'T' },
  source: derivedHere,
  evaluate: (x) => (x.voltage2 - x.voltage1) / (voltsPerKelvin * x.temperature * Math.log(x.current2 / x.current1)),
  partials: (x) => {
    const log = Math.log(x.current2 / x.current1)
    const perVolt = 1 / (voltsPerKelvin * x.temperature * log)
    const n = (x.voltage2 - x.voltage1) * perVolt
    return {
      voltage1: -perVolt,
      voltage2: perVolt,
      current1: n / (log * x.current1),
      current2: -n / (log * x.current2),
      temperature: -n / x.temperature,
    }
  },
  domain: {
    voltage1: [0.4, 0.5],
    voltage2: [0.52, 0.7],
    current1: [1e-5, 1e-4],
    current2: [1e-3, 1e-2],
    temperature: [273, 333],
  },
})

/** Ideality from two points where the series resistance is known. */
export const idealityWithResistance = formula({
  id: 'reduce/ideality-with-resistance',
  version: 1,
  text: 'n = (V2 - V1 - R_S (I2 - I1)) q / (k T ln(I2 / I1))',
  unit: '1',
  inputs: { voltage1: 'V', voltage2: 'V', current1: 'A', current2: 'A', resistance: 'ohm', temperature: 'K' },
  symbols: {
    voltage1: 'V1',
    voltage2: 'V2',
    current1: 'I1',
    current2: 'I2',
    resistance: 'R_S',
    temperature: 'T',
  },
  source: derivedHere,
  evaluate: (x) =>
    (x.voltage2 - x.voltage1 - x.resistance * (x.current2 - x.current1)) /
    (voltsPerKelvin * x.temperature * Math.log(x.current2 / x.current1)),
  partials: (x) => {
    const log = Math.log(x.current2 / x.current1)
    const perVolt = 1 / (voltsPerKelvin * x.temperature * log)
    const n = (x.voltage2 - x.voltage1 - x.resistance * (x.current2 - x.current1)) * perVolt
    return {
      voltage1: -perVolt,
      voltage2: perVolt,
      current1: x.resistance * perVolt + n / (log * x.current1),
      current2: -x.resistance * perVolt - n / (log * x.current2),
      resistance: -(x.current2 - x.current1) * perVolt,
      temperature: -n / x.temperature,
    }
  },
  domain: {
    voltage1: [0.4, 0.5],
    voltage2: [0.55, 0.7],
    current1: [1e-5, 1e-4],
    current2: [1e-3, 1e-2],
    resistance: [0.1, 3],
    temperature: [273, 333],
  },
})

interface ThreePoints {
  readonly voltage1: number
  readonly voltage2: number
  readonly voltage3: number
  readonly current1: number
  readonly current2: number
  readonly current3: number
}

const three = {
  inputs: { voltage1: 'V', voltage2: 'V', voltage3: 'V', current1: 'A', current2: 'A', current3: 'A' },
  symbols: { voltage1: 'V1', voltage2: 'V2', voltage3: 'V3', current1: 'I1', current2: 'I2', current3: 'I3' },
  domain: {
    voltage1: [0.45, 0.5],
    voltage2: [0.52, 0.57],
    voltage3: [0.65, 0.75],
    current1: [1e-4, 2e-4],
    current2: [1e-3, 2e-3],
    current3: [1e-2, 2e-2],
  },
} as const

/** Differences and logarithms that the two three-point laws share. */
function steps(x: ThreePoints) {
  const dV1 = x.voltage2 - x.voltage1
  const dV2 = x.voltage3 - x.voltage2
  const dI1 = x.current2 - x.current1
  const dI2 = x.current3 - x.current2
  const l1 = Math.log(x.current2 / x.current1)
  const l2 = Math.log(x.current3 / x.current2)
  return { dV1, dV2, dI1, dI2, l1, l2, below: l1 * dI2 - l2 * dI1 }
}

/** Chains slopes by the six differences down to the six readings. */
function chained(x: ThreePoints, by: { dV1: number; dV2: number; dI1: number; dI2: number; l1: number; l2: number }) {
  return {
    voltage1: -by.dV1,
    voltage2: by.dV1 - by.dV2,
    voltage3: by.dV2,
    current1: -by.dI1 - by.l1 / x.current1,
    current2: by.dI1 - by.dI2 + (by.l1 - by.l2) / x.current2,
    current3: by.dI2 + by.l2 / x.current3,
  }
}

/** Series resistance of a junction from three points, ideality and saturation current taken out. */
export const seriesResistance = formula({
  ...three,
  id: 'reduce/series-resistance',
  version: 1,
  text: 'R_S = ((V3 - V2) ln(I2/I1) - (V2 - V1) ln(I3/I2)) / ((I3 - I2) ln(I2/I1) - (I2 - I1) ln(I3/I2))',
  unit: 'ohm',
  source: derivedHere,
  evaluate: (x) => {
    const s = steps(x)
    return (s.dV2 * s.l1 - s.dV1 * s.l2) / s.below
  },
  partials: (x) => {
    const s = steps(x)
    const r = (s.dV2 * s.l1 - s.dV1 * s.l2) / s.below
    return chained(x, {
      dV1: -s.l2 / s.below,
      dV2: s.l1 / s.below,
      dI1: (r * s.l2) / s.below,
      dI2: (-r * s.l1) / s.below,
      l1: (s.dV2 - r * s.dI2) / s.below,
      l2: (-s.dV1 + r * s.dI1) / s.below,
    })
  },
})

/** Ideality of a junction times V_T from three points, series resistance taken out. */
export const emissionVoltage = formula({
  ...three,
  id: 'reduce/emission-voltage',
  version: 1,
  text: 'n V_T = ((V2 - V1) (I3 - I2) - (V3 - V2) (I2 - I1)) / ((I3 - I2) ln(I2/I1) - (I2 - I1) ln(I3/I2))',
  unit: 'V',
  source: derivedHere,
  evaluate: (x) => {
    const s = steps(x)
    return (s.dV1 * s.dI2 - s.dV2 * s.dI1) / s.below
  },
  partials: (x) => {
    const s = steps(x)
    const v = (s.dV1 * s.dI2 - s.dV2 * s.dI1) / s.below
    return chained(x, {
      dV1: s.dI2 / s.below,
      dV2: -s.dI1 / s.below,
      dI1: (-s.dV2 + v * s.l2) / s.below,
      dI2: (s.dV1 - v * s.l1) / s.below,
      l1: (-v * s.dI2) / s.below,
      l2: (v * s.dI1) / s.below,
    })
  },
})

/** Ideality from n V_T and the temperature. */
export const idealityFromEmission = formula({
  id: 'reduce/ideality-from-emission',
  version: 1,
  text: 'n = (n V_T) q / (k T)',
  unit: '1',
  inputs: { emission: 'V', temperature: 'K' },
  symbols: { emission: 'n V_T', temperature: 'T' },
  source: derivedHere,
  evaluate: ({ emission, temperature }) => emission / (voltsPerKelvin * temperature),
  partials: ({ emission, temperature }) => ({
    emission: 1 / (voltsPerKelvin * temperature),
    temperature: -emission / (voltsPerKelvin * temperature ** 2),
  }),
  domain: { emission: [0.02, 0.06], temperature: [273, 333] },
})

/** Junction formulas, for the registry. */
export const junctionFormulas = [
  idealityTwoPoints,
  idealityWithResistance,
  seriesResistance,
  emissionVoltage,
  idealityFromEmission,
] as const
