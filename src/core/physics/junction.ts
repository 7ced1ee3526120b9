import { lambertOfExp } from './lambert-w.ts'

/** Current of a junction and how it changes with its voltage. Laws write into one that the caller keeps. */
export interface JunctionOut {
  currentA: number
  slopeS: number
}

/** An empty place for a law to write into. */
export const junctionOut = (): JunctionOut => ({ currentA: Number.NaN, slopeS: Number.NaN })

/** Forward drop, in units of n V_T, above which the law goes on along its tangent so that it never overflows. */
const straightFrom = 300

/**
 * Current of a junction without series resistance: I_S (exp(V / n V_T) - 1), with its slope.
 *
 * Below -3 n V_T the exponential is replaced by -I_S (1 + (3 n V_T / e V)^3), as SPICE does: value and slope join, and
 * the current differs by at most 0.4 % of I_S. Above 300 n V_T, where no junction lives, the law is its own tangent.
 *
 * @param saturationA I_S, A
 * @param stepV n V_T, V, above 0
 * @param voltageV across the junction, V
 * @see ngspice 39, diode and bipolar models; W. Shockley, Bell Syst. Tech. J. 28 (1949), p. 435
 */
export function junctionLaw(saturationA: number, stepV: number, voltageV: number, out: JunctionOut): void {
  if (saturationA === 0) {
    out.currentA = 0
    out.slopeS = 0
  } else if (voltageV < -3 * stepV) {
    const a = (3 * stepV) / (voltageV * Math.E)
    const cube = a * a * a
    out.currentA = -saturationA * (1 + cube)
    out.slopeS = (3 * saturationA * cube) / voltageV
  } else {
    const x = voltageV / stepV
    const e = Math.exp(Math.min(x, straightFrom))
    out.slopeS = (saturationA * e) / stepV
    if (x > straightFrom) out.currentA = saturationA * (e * (x - straightFrom + 1) - 1)
    else out.currentA = saturationA * (x > 1 ? e - 1 : Math.expm1(x))
  }
}

/** A junction with a resistance in series, at one temperature. */
export interface SeriesJunction {
  /** Saturation current I_S, A, above 0. */
  readonly saturationA: number
  /** n V_T, V, above 0. */
  readonly stepV: number
  /** Series resistance R_S, ohm; 0 or more. */
  readonly seriesOhm: number
}

/**
 * Current of a junction with series resistance by the plain exponential law, in closed form:
 * I = (n V_T / R_S) W{ (I_S R_S / n V_T) exp[(V + I_S R_S) / n V_T] } - I_S, with W taken from the logarithm of its
 * argument so that no voltage overflows it. Where the resistance has hardly a share, `expm1` keeps the digits near 0 V.
 *
 * @param voltageV across junction and resistance, V; any
 * @returns A
 * @see T. C. Banwell and A. Jayakumar, Electronics Letters 36 (2000), p. 291
 * @example seriesJunctionCurrent({ saturationA: 4e-9, stepV: 0.049143, seriesOhm: 0.6 }, 0.7) // 5.725e-3
 */
export function seriesJunctionCurrent(j: SeriesJunction, voltageV: number): number {
  const one = new Float64Array(1)
  seriesJunctionCurrents(j, [voltageV], one)
  return one[0]!
}

/**
 * The same at many voltages, written into `into`; what hangs on the junction alone is computed once.
 *
 * @param stood values of W at parameters near by, or 0: kept here for the next time, they save steps
 */
export function seriesJunctionCurrents(
  j: SeriesJunction,
  voltagesV: ArrayLike<number>,
  into: Float64Array,
  stood: Float64Array = new Float64Array(voltagesV.length),
): void {
  const { saturationA: is, stepV: step, seriesOhm: rs } = j
  if (rs === 0) {
    for (let i = 0; i < voltagesV.length; i++) into[i] = is * Math.expm1(voltagesV[i]! / step)
    return
  }
  const a = (is * rs) / step
  const atZero = Math.log(a) + a
  for (let i = 0; i < voltagesV.length; i++) {
    const w = lambertOfExp(atZero + voltagesV[i]! / step, stood[i])
    stood[i] = w
    // I + I_S = w step / rs loses digits where I is far below I_S: there one Newton step on the junction voltage mends it
    into[i] = mended(j, voltagesV[i]!, (w * step) / rs - is)
  }
}

/** One Newton step on f(V_j) = V_j + R_S I_S expm1(V_j / n V_T) - V from a close current. */
function mended(j: SeriesJunction, voltageV: number, currentA: number): number {
  const { saturationA: is, stepV: step, seriesOhm: rs } = j
  if (!(Math.abs(currentA) < is)) return currentA
  let v = voltageV - currentA * rs
  for (let i = 0; i < 2; i++) {
    const e = Math.expm1(v / step)
    v -= (v + rs * is * e - voltageV) / (1 + (rs * is * (e + 1)) / step)
  }
  return is * Math.expm1(v / step)
}

/**
 * The same current by iteration: Newton steps on the junction voltage, taken in ln I where the junction conducts.
 *
 * @param voltageV across junction and resistance, V
 * @returns A; agrees with the closed form to 1e-12 of its value
 */
export function seriesJunctionByIteration(j: SeriesJunction, voltageV: number): number {
  const { saturationA: is, stepV: step, seriesOhm: rs } = j
  if (rs === 0 || voltageV <= 0) return reverseByIteration(j, voltageV)
  // y = ln(1 + I / I_S): step y + rs is (e^y - 1) = V; both terms are convex, so Newton from above never turns back
  let y = Math.min(voltageV / step, Math.log1p(voltageV / (rs * is)))
  for (let i = 0; i < 100; i++) {
    const e = Math.expm1(y)
    const change = (step * y + rs * is * e - voltageV) / (step + rs * is * (e + 1))
    y -= change
    if (Math.abs(change) <= 4e-16 * y) break
  }
  return is * Math.expm1(y)
}

function reverseByIteration(j: SeriesJunction, voltageV: number): number {
  const { saturationA: is, stepV: step, seriesOhm: rs } = j
  let v = voltageV + Math.min(-voltageV, rs * is)
  for (let i = 0; i < 100; i++) {
    const e = Math.expm1(v / step)
    const change = (v + rs * is * e - voltageV) / (1 + (rs * is * (e + 1)) / step)
    v -= change
    if (Math.abs(change) <= 4e-16 * Math.abs(v)) break
  }
  return is * Math.expm1(v / step)
}

/** Voltage of a junction with series resistance at a current above -I_S: n V_T ln(1 + I / I_S) + I R_S, V. */
export const seriesJunctionVoltage = (j: SeriesJunction, currentA: number): number =>
  j.stepV * Math.log1p(currentA / j.saturationA) + currentA * j.seriesOhm

/**
 * Saturation current at a temperature: I_S (T / T_nom)^(X_TI / N) exp[(T / T_nom - 1) E_G / (N V_T)].
 *
 * @param saturationA I_S at `nominalK`, A
 * @param gapV E_G, V
 * @param power X_TI: 3 for a pn junction, 2 for a Schottky diode
 * @param emission N of the diode; 1 for a transistor's transport current
 * @see ngspice 39 manual, eq. 7.10 and 1.3
 */
export function saturationAtTemperature(
  saturationA: number,
  law: { readonly gapV: number; readonly power: number; readonly emission: number },
  nominalK: number,
  temperatureK: number,
  voltsPerKelvin: number,
): number {
  const ratio = temperatureK / nominalK
  const exponent = ((ratio - 1) * law.gapV) / (voltsPerKelvin * temperatureK) + law.power * Math.log(ratio)
  return saturationA * Math.exp(exponent / law.emission)
}
