/**
 * Thermal resistances and derating factors as makers print them, beside the ratings they follow from:
 * R_th = (T_Jmax - 25 degC) / P_25, derating factor = 1 / R_th. From the makers' datasheets of the types named.
 */
export const publishedRth = [
  { type: '2N3055', tJmaxC: 200, powerW: 115, printed: '1.52' },
  { type: '2N3904', tJmaxC: 150, powerW: 0.625, printed: '200' },
  { type: 'BC556', tJmaxC: 150, powerW: 0.5, printed: '250' },
] as const

/** Printed in mW per kelvin. */
export const publishedDerating = [
  { type: '2N388', tJmaxC: 100, powerW: 0.15, printed: '2.0' },
  { type: '2N2646', tJmaxC: 125, powerW: 0.3, printed: '3.0' },
] as const

/**
 * One thermal pole in closed form, confirmed by SciPy solve_ivp (Radau, rtol 1e-10): 250 K/W, 8 s, 0.12 W from 1 s to
 * 4 s, ambient 25 degC. Columns: time s, junction degC; nine digits.
 */
export const onePulse = {
  rth: 250,
  tau: 8,
  ambientC: 25,
  powerW: 0.12,
  onS: 1,
  offS: 4,
  rows: [
    [1, 25],
    [1.26491106, 25.9771486],
    [1.6, 27.1676954],
    [2.5, 30.1291265],
    [4, 34.3813216],
    [7.11311764, 31.357155],
    [11.2, 28.8141607],
    [22, 25.988784],
    [40, 25.1042171],
  ],
} as const

/**
 * Open-base leakage of an invented germanium alloy transistor at 9 V, solved with ngspice 39 at the junction
 * temperature: currents of the stable points, A, and the exact loop gain R_th dP/dT_J there.
 */
export const openBaseLeakage = [
  { rthKPerW: 300, supplyV: 9, leakageA: 0.000195049537, loopGain: 0.0291015031 },
  { rthKPerW: 800, supplyV: 9, leakageA: 0.00020570722, loopGain: 0.0832516069 },
  { rthKPerW: 800, supplyV: 9, leakageA: 0.000628757118, loopGain: 0.293525453 },
  { rthKPerW: 300, supplyV: 9, leakageA: 0.00163684904, loopGain: 0.277654404 },
] as const
