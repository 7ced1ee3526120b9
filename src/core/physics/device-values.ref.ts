/**
 * Check values of the device laws. Equations from the sources named, evaluated with exact k and e; the equations are
 * from memory except where a source is marked read.
 */

/** kT/e at 300 K, V. */
export const thermalVoltageAt300 = 0.025851999786435535

/**
 * Leakages that the Ebers-Moll law implies, A: I_CBO = I_S (1 / B_R + 1 / (B_F + 1)), I_EBO with the gains exchanged,
 * I_CEO = (1 + B_F) I_CBO. Derived; P. R. Gray and R. G. Meyer, Analysis and Design of Analog ICs.
 */
export const impliedLeakage = {
  card: { is: 2e-6, bf: 90, br: 10 },
  cutoff: 2.21978021978022e-7,
  emitterCutoff: 2.0404040404040403e-7,
  openBase: 2.02e-5,
} as const

/** Saturation of an ideal transistor at 27 degC, I_C / I_B = 10, V; Gray and Meyer, and ngspice 39 with six digits. */
export const saturation = {
  card: { is: 1e-15, bf: 100, br: 2 },
  forced: 10,
  vce: 0.05113916631054727,
  ngspice: '0.051139',
} as const

/** Square law of a JFET: I_DSS 10 mA and 2.5 mA at -1.5 V give V_P = V_GS / (1 - sqrt(I_D / I_DSS)), V. Evans, Designing with FETs. */
export const pinchOff = { idssA: 0.01, idA: 0.0025, vgs: -1.5, vp: -3 } as const

/**
 * The junction with series resistance by Lambert's W: T. C. Banwell and A. Jayakumar, Electronics Letters 36 (2000),
 * p. 291. Columns: V, A.
 */
export const closedForm = {
  saturationA: 4e-9,
  emission: 1.9,
  seriesOhm: 0.6,
  temperatureK: 300.15,
  rows: [
    [0.3, 1.787594632232068e-6],
    [0.6, 0.000794734926694299],
    [0.7, 0.0057254473485285305],
    [0.8, 0.031845127432578564],
  ],
} as const

/** Band gaps at 300 K, eV: Thurmond's constants, and those SPICE has for silicon (ngspice 39 manual, 7.7, read). */
export const gaps = { Si: 1.1245192307692307, Ge: 0.6633897196261682, spiceSi: 1.1151278409090908 } as const

/**
 * Intrinsic densities, 1/cm^3, as B. Van Zeghbroeck prints them, Principles of Semiconductor Devices, example table
 * (read), and recomputed at 300 K.
 */
export const densities = [
  { material: 'Ge', atK: 300, printed: '1.83e13', computed: 18343477830549.26 },
  { material: 'Si', atK: 300, printed: '8.81e9', computed: 8887183614.950525 },
  { material: 'Ge', atK: 373.15, printed: '3.10e14' },
  { material: 'Si', atK: 373.15, printed: '8.55e11' },
] as const

/** Defaults of cards: ngspice 39 manual, table 8.2.1, 7.2 and 9.2 (read). Infinite ones are left out of our table. */
export const cardDefaults = {
  bipolar: {
    is: 1e-16,
    bf: 100,
    nf: 1,
    ise: 0,
    ne: 1.5,
    br: 1,
    nr: 1,
    isc: 0,
    nc: 2,
    rb: 0,
    re: 0,
    rc: 0,
    xtb: 0,
    eg: 1.11,
    xti: 3,
    tnom: 27,
  },
  diode: { is: 1e-14, n: 1, rs: 0, ibv: 1e-3, eg: 1.11, xti: 3, ikf: 0, nr: 1, tnom: 27 },
  jfet: { vto: -2, beta: 1e-4, lambda: 0, is: 1e-14 },
} as const
