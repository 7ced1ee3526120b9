import { diodeAt, diodeCurrent, kelvin, seriesJunctionCurrent, thermalVoltage } from '#core/physics'
import type { Curve, CurvePoint } from './curve.ts'
import { type CurveLaw, type LawParameter, logLine, type Target, targetsOf } from './law.ts'

/** Voltage of a point of a diode, forward above zero, V. */
const voltageOf = (p: CurvePoint): number | undefined =>
  p.values.V_F ?? (p.values.V_R === undefined ? undefined : -p.values.V_R)

/** Steepest rise of ln I with V_R that is no breakdown, 1/V. */
const breakdownRise = 1

/** The law of a diode: junction with ideality, series and parallel resistance, and breakdown where it was reached. */
export function diodeCurveLaw(curve: Curve, temperatureC: number): CurveLaw {
  const points = curve.points.map((p): CurvePoint => {
    const { I_R: ir } = p.values
    return ir === undefined || p.values.I_F !== undefined
      ? p
      : { ...p, values: { ...p.values, I_F: -ir }, u: p.u.I_R === undefined ? p.u : { ...p.u, I_F: p.u.I_R } }
  })
  const targets = targetsOf(points, ['I_F'], (p, i) => {
    const v = voltageOf(p)
    return v !== undefined && v * i > 0
  })
  const vt = thermalVoltage(kelvin(temperatureC))
  const forward = targets.filter((t) => t.value > 0)
  const reverse = targets.filter((t) => t.value < 0)
  const parameters = [...junctionParameters(forward, reverse, vt), ...leakParameters(reverse, forward.length)]
  const knee = breakdownOf(reverse)
  const voltages = targets.map((t) => voltageOf(t.point)!)
  if (knee === undefined) {
    const law = plainLaw(voltages, vt)
    return { kind: 'diode', parameters, targets, ...law, notes: [] }
  }
  return {
    kind: 'diode',
    parameters: [...parameters, ...breakdownParameters(knee)],
    targets,
    evaluate: breakdownLaw(voltages, temperatureC, knee.currentA),
    notes: [`Breakdown voltage is given at ${knee.currentA} A.`],
  }
}

function junctionParameters(forward: readonly Target[], reverse: readonly Target[], vt: number): LawParameter[] {
  const most = forward.reduce((m, t) => Math.max(m, t.value), 0)
  const low = forward.filter((t) => voltageOf(t.point)! > 3 * vt && t.value < most / 5)
  const used = low.length >= 2 ? low : forward
  const line = logLine(
    used.map((t) => voltageOf(t.point)!),
    used.map((t) => t.value),
  )
  const n = line === undefined ? 1 : Math.min(4, Math.max(0.8, 1 / (line.slope * vt)))
  const lowest = reverse.reduce((m, t) => Math.min(m, -t.value), Number.POSITIVE_INFINITY)
  const is = line === undefined ? lowest : Math.exp(line.at0)
  const top = forward.find((t) => t.value === most)
  const left = top === undefined ? 0 : voltageOf(top.point)! - n * vt * Math.log1p(most / is)
  const rs = left > 0 ? left / most : 0.01 * (vt / (most || 1))
  return [
    { symbol: 'I_S', card: 'is', unit: 'A', start: is, low: 1e-30, high: 1, scale: 'log' },
    {
      symbol: 'n',
      card: 'n',
      unit: '1',
      start: n,
      low: 0.5,
      high: 10,
      scale: 'linear',
      ...(forward.length === 0 ? { held: 'only reverse readings: they say nothing of it' } : {}),
    },
    {
      symbol: 'R_S',
      card: 'rs',
      unit: 'ohm',
      start: rs,
      low: 1e-9,
      high: 1e9,
      scale: 'log',
      absent: 0,
      ...(forward.length < 4 ? { held: 'fewer than four forward readings' } : {}),
    },
  ]
}

/** Leakage beside the junction, where reverse readings can show it. */
function leakParameters(reverse: readonly Target[], forward: number): LawParameter[] {
  if (reverse.length < 2 && forward < 6) return []
  const slopes = reverse.map((t) => voltageOf(t.point)! / t.value)
  const most = slopes.reduce((m, r) => Math.max(m, r), 0)
  return reverse.length < 2
    ? []
    : [{ symbol: 'R_P', unit: 'ohm', start: most * 3, low: 1, high: 1e18, scale: 'log', absent: 1e18 }]
}

/** i = I_S (exp(v_j / n V_T) - 1) + v / R_P with its slopes, R_S in series with the junction, in closed form. */
function plainLaw(voltages: readonly number[], vt: number): Pick<CurveLaw, 'evaluate' | 'slopes'> {
  const at = (p: Float64Array, v: number): number =>
    seriesJunctionCurrent({ saturationA: p[0]!, stepV: p[1]! * vt, seriesOhm: p[2]! }, v)
  return {
    evaluate: (p, values) => {
      for (const [i, v] of voltages.entries()) values[i] = at(p, v) + (p.length > 3 ? v / p[3]! : 0)
    },
    slopes: (p, into) => {
      const [is, n, rs] = [p[0]!, p[1]!, p[2]!]
      for (const [i, v] of voltages.entries()) {
        const junction = at(p, v)
        const x = (v - junction * rs) / (n * vt)
        const rise = (junction + is) / (n * vt)
        const whole = 1 + rise * rs
        into[0]![i] = Math.expm1(x) / whole
        into[1]![i] = (-rise * vt * x) / whole
        into[2]![i] = (-rise * junction) / whole
        if (p.length > 3) into[3]![i] = -v / p[3]! ** 2
      }
    },
  }
}

interface Knee {
  readonly voltageV: number
  readonly currentA: number
}

/** Where reverse current rises so steeply that it is breakdown: its last reading, and the voltage there. */
function breakdownOf(reverse: readonly Target[]): Knee | undefined {
  const sorted = [...reverse].sort((a, b) => voltageOf(b.point)! - voltageOf(a.point)!)
  const [before, last] = sorted.slice(-2)
  if (before === undefined || last === undefined) return undefined
  const step = voltageOf(before.point)! - voltageOf(last.point)!
  if (!(step > 0) || Math.log(last.value / before.value) / step < breakdownRise) return undefined
  return { voltageV: -voltageOf(last.point)!, currentA: -last.value }
}

const breakdownParameters = (knee: Knee): readonly LawParameter[] => [
  { symbol: 'V_BR', card: 'bv', unit: 'V', start: knee.voltageV, low: 0.1, high: 1e5, scale: 'linear' },
  { symbol: 'n_BR', card: 'nbv', unit: '1', start: 1.5, low: 0.05, high: 1e3, scale: 'log' },
]

function breakdownLaw(voltages: readonly number[], temperatureC: number, ibv: number): CurveLaw['evaluate'] {
  return (p, values) => {
    const [is, n, rs, rp, bv, nbv] = p as unknown as readonly number[]
    const card = { is: is!, n: n!, rs: rs!, bv: bv!, nbv: nbv!, ibv, tnom: temperatureC }
    const model = diodeAt(card, kelvin(temperatureC))
    for (const [i, v] of voltages.entries()) values[i] = (diodeCurrent(model, v) ?? Number.NaN) + v / rp!
  }
}
