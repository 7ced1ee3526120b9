/**
 * Textbook stages with a transistor of constant V_BE and gain: numbers as the books print them, and recomputed in full
 * digits. R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, ch. 4; A. S. Sedra and K. C. Smith,
 * Microelectronic Circuits. All from memory, recomputed.
 */

/** What of a stage is printed, under the names of its unknowns: A and V. */
interface Printed {
  readonly [symbol: string]: string
}

/** Example 4.1, fixed bias. */
export const fixedBias = {
  given: { VCC: 12, RB: 240e3, RC: 2200, beta: 50, VBE: 0.7 },
  computed: { IB: 4.708333333333334e-5, IC: 0.0023541666666666667, VCE: 6.820833333333333 },
  // V_CE is printed 6.83 V, from I_C rounded to 2.35 mA
  printed: { IB: '47.08e-6', IC: '2.35e-3' } as Printed,
} as const

/** Example 4.4, emitter resistor. */
export const emitterBias = {
  given: { VCC: 20, RB: 430e3, RC: 2000, RE: 1000, beta: 50, VBE: 0.7 },
  computed: { IB: 4.0124740124740125e-5, IC: 0.0020062370062370063, VCE: 13.98128898128898 },
  // V_CE is printed 13.97 V, from I_C rounded to 2.01 mA; the recomputed one neglects I_B in R_E as the book does
  printed: { IB: '40.1e-6', IC: '2.01e-3' } as Printed,
} as const

/** Example 4.7, voltage divider, exact. */
export const dividerBias = {
  given: { VCC: 22, R1: 39e3, R2: 3900, RC: 10e3, RE: 1500, beta: 140, VBE: 0.7 },
  computed: { IB: 6.0452335658423165e-6, IC: 0.0008463326992179243, VCE: 12.26717395899387 },
  // V_CE is printed 12.22 V, from I_C rounded to 0.85 mA
  printed: { IB: '6.05e-6', IC: '0.85e-3' } as Printed,
} as const

/** Example 4.11, collector feedback; the book takes I_C for the current of R_C, which is I_C + I_B. */
export const feedbackBias = {
  given: { VCC: 10, RF: 250e3, RC: 4700, RE: 1200, beta: 90, VBE: 0.7 },
  computed: { IB: 1.1907810499359796e-5, IC: 0.0010717029449423816, VCE: 3.6769526248399487 },
} as const

/** Sedra and Smith: V_BE 0.7 V at 1 mA, V_T 25 mV, supplies of +-15 V; 2 mA and a collector at +5 V are wanted. */
export const designed = {
  given: { beta: 100, VBE: 0.7, atA: 1e-3, thermalV: 0.025, supplyV: 15 },
  computed: { RC: 5000, VBE: 0.7173286795139986, RE: 7070.79207920792, IC: 2e-3, VC: 5 },
  printed: { VBE: '0.717', IE: '2.02e-3', RE: '7.07e3' } as Printed,
} as const

/** S(I_CO) = dI_C/dI_CO at a gain of 50, and what 19.9 nA more do to I_C: silicon from 25 to 100 degC. */
export const leakageStability = [
  { ratio: 250, stability: 42.52823920265781, changeA: 8.463119601328904e-7, printed: '42.53', change: '0.85e-6' },
  { ratio: 10, stability: 9.19672131147541, changeA: 1.8301475409836065e-7, printed: '9.2', change: '0.18e-6' },
  { ratio: 0.01, stability: 1.00980199960792, changeA: 2.0095059792197607e-8, printed: '1.01', change: '20.1e-9' },
] as const

/**
 * S(V_BE) = dI_C/dV_BE at a gain of 100, and what 0.65 V falling to 0.48 V does. The book prints 70.9 uA, about 50 uA,
 * and 36 uA for the last, which it takes as -1 / R_E.
 */
export const voltageStability = [
  { RB: 240e3, RE: 0, slope: -0.0004166666666666667, changeA: 7.083333333333334e-5 },
  { RB: 240e3, RE: 1000, slope: -0.0002932551319648094, changeA: 4.98533724340176e-5 },
  { RB: 47e3, RE: 4700, slope: -0.00019168104274487253, changeA: 3.258577726662833e-5 },
] as const

/** S(beta): I_C 2 mA at 25 degC, gain 50 rising to 80, R_B / R_E = 20. */
export const gainStability = {
  from: 50,
  to: 80,
  ratio: 20,
  currentA: 2e-3,
  perGainA: 8.316831683168318e-6,
  hotA: 0.0022495049504950497,
  printed: { perGain: '8.32e-6', change: '0.25e-3', hot: '2.25e-3' },
} as const

/**
 * J. Millman and C. C. Halkias, Integrated Electronics, ch. 9 (from memory), thermal runaway; the numbers are our own.
 * With S the leakage's stability factor, dP/dT = V_CC S 0.07 I_CO.
 */
export const runawayExample = {
  supplyV: 12,
  collectorA: 0.1,
  stability: 20,
  leakageA: 2e-5,
  perKelvin: 0.07,
  powerPerKelvin: 0.00033600000000000004,
  mostKPerW: 2976.1904761904757,
} as const
