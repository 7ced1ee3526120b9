/**
 * JCGM 106:2012 (ISO/IEC Guide 98-4): examples and Table 1. Inputs and printed results from memory, except the resistor
 * inputs, which were read in public transcriptions; probabilities recomputed.
 */

/** 7.3, Table 1: z for one-sided conformance probabilities, as printed and exact. */
export const table1 = [
  [0.8, '0.84', 0.8416212335729143],
  [0.9, '1.28', 1.2815515655446004],
  [0.95, '1.64', 1.6448536269514722],
  [0.99, '2.33', 2.3263478740408408],
  [0.999, '3.09', 3.090232306167813],
] as const

export const examples = [
  /** 7.3.2, example 1: breakdown voltage of a Zener diode, V. */
  { what: 'Zener diode', value: -5.47, u: 0.05, limits: { max: -5.4 }, printed: '0.92', exact: 0.9192433407662273 },
  /** 7.3.2, example 2: bursting strength of a container, kPa. */
  { what: 'container', value: 509.7, u: 8.6, limits: { min: 490 }, printed: '0.99', exact: 0.9890095473848222 },
  /** 7.4: viscosity of motor oil, mm2/s. */
  {
    what: 'motor oil',
    value: 13.6,
    u: 1.8,
    limits: { min: 12.5, max: 16.3 },
    printed: '0.66',
    exact: 0.6626297864953078,
  },
] as const

/** 9.5.4: resistors of 1500 ohm inspected with an ohmmeter; half-widths of the acceptance interval, ohm. */
export const resistors = {
  lot: { mean: 1500, deviation: 0.12 },
  u: 0.04,
  tolerance: { min: 1499.8, max: 1500.2 },
  processConformance: 0.9044192954543706,
  printed: { halfWidth: 0.18, consumer: '0.01', producer: '0.07' },
  exact: [
    { halfWidth: 0.18, consumer: 0.009878291521772305, producer: 0.06902651046152139 },
    { halfWidth: 0.2, consumer: 0.01894220671702914, producer: 0.03720780017805775 },
    { halfWidth: 0.22, consumer: 0.03114455227327474, producer: 0.017554168728028258 },
    { halfWidth: 0.12, consumer: 0.00046863359887825285, producer: 0.24766964020115234 },
  ],
} as const

/** Deaver's risks, read in a public test suite: lot deviation 4, measurement 1, limits 8 either side. */
export const deaver = { consumer: 0.008006084834450092, producer: 0.0148508842112549 }

/** The same measurement with limits at 2.5 deviations of the lot, by quadrature (SciPy): lot deviation 1, measurement 1/4. */
export const deaverWide = { limit: 2.5, u: 0.25, consumer: 0.002445348712703641, producer: 0.005319389091350305 }

/** Share outside of a lot with deviation 0.4 and limits 9 and 11, as the same suite prints it. */
export const lotShares = [
  { mean: 10, outside: '0.01242' },
  { mean: 10.5, outside: '0.10574' },
  { mean: 12, outside: '0.99379' },
] as const

/** Guard bands as multiples of U = 2u, and the risk they leave at one limit (ILAC-G8:09/2019, Table 1, from memory). */
export const guardBands = [
  { rule: '6 sigma', bandInU: 3, risk: 9.865877004244794e-10 },
  { rule: '3 sigma', bandInU: 1.5, risk: 0.0013498980316301035 },
  { rule: 'U', bandInU: 1, risk: 0.02275013194817921 },
  { rule: 'ISO 14253-1:2017', bandInU: 0.83, risk: 0.048457226266722775 },
  { rule: 'simple acceptance', bandInU: 0, risk: 0.5 },
] as const
