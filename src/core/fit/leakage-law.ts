import { boltzmann, elementaryCharge, kelvin, thermalVoltage } from '#core/physics'
import type { Curve, CurvePoint } from './curve.ts'
import { type CurveLaw, logLine, type Target, targetsOf } from './law.ts'

/** Whether a curve tells how leakage grows with temperature: rows with one. */
export const isLeakage = (curve: Curve): boolean => curve.points.some((p) => p.values.T !== undefined)

/** Power of the law of I_S of a pn junction; see `saturationAtTemperature`. */
const junctionPower = 3

/**
 * Leakage of a junction against its temperature: I_R = I_S (T / T_nom)^X_TI exp[E_G q / k (1 / T_nom - 1 / T)], which is
 * the law of a SPICE card. Rows with V_R have the share (1 - exp(-V_R / V_T)) of it, the others all.
 *
 * @param nominalC temperature at which I_S is given, degC
 * @see ngspice 39 manual, eq. 7.10
 */
export function leakageCurveLaw(curve: Curve, nominalC: number): CurveLaw {
  const targets = targetsOf(curve.points, ['I_R'], (p, i) => p.values.T !== undefined && i > 0 && p.values.V_R !== 0)
  const nominal = kelvin(nominalC)
  const temperatures = targets.map((t) => kelvin(t.point.values.T!))
  const perGap = temperatures.map((t) => (elementaryCharge.value / boltzmann.value) * (1 / nominal - 1 / t))
  const power = temperatures.map((t) => Math.log(t / nominal))
  const share = targets.map((t) => shareOf(t.point))
  const current = (p: Float64Array, i: number): number =>
    p[0]! * share[i]! * Math.exp(p[1]! * perGap[i]! + p[2]! * power[i]!)
  const start = startsOf(targets, perGap, power)
  return {
    kind: 'diode',
    parameters: [
      { symbol: 'I_S', card: 'is', unit: 'A', start: start.is, low: 1e-30, high: 1, scale: 'log' },
      { symbol: 'E_G', card: 'eg', unit: 'V', start: start.gapV, low: 0.05, high: 5, scale: 'linear' },
      {
        symbol: 'X_TI',
        card: 'xti',
        unit: '1',
        start: junctionPower,
        low: -10,
        high: 10,
        scale: 'linear',
        held: 'it is 3 for a pn junction, and leakage alone cannot tell it from E_G',
      },
    ],
    targets,
    evaluate: (p, values) => {
      for (let i = 0; i < targets.length; i++) values[i] = current(p, i)
    },
    slopes: (p, into) => {
      for (let i = 0; i < targets.length; i++) {
        const value = current(p, i)
        into[0]![i] = value / p[0]!
        into[1]![i] = value * perGap[i]!
        into[2]![i] = value * power[i]!
      }
    },
    notes: [`I_S is the leakage at ${nominalC} °C; what leaks beside the junction is in it.`],
  }
}

const shareOf = ({ values: { V_R: reverse, T } }: CurvePoint): number =>
  reverse === undefined ? 1 : -Math.expm1(-Math.abs(reverse) / thermalVoltage(kelvin(T!)))

/** ln I_R less its power law is a line in 1 / T. */
function startsOf(
  targets: readonly Target[],
  perGap: readonly number[],
  power: readonly number[],
): { readonly is: number; readonly gapV: number } {
  const rest = targets.map((t, i) => t.value / Math.exp(junctionPower * power[i]!))
  const line = logLine(perGap, rest)
  if (line === undefined) return { is: rest[0] ?? 1e-9, gapV: 1 }
  return { is: Math.exp(line.at0), gapV: Math.min(4, Math.max(0.1, line.slope)) }
}
