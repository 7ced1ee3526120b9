import { diodeAt, diodeCurrent, kelvin, seriesJunctionCurrents, thermalVoltage } from '#core/physics'
import type { Curve, CurvePoint } from './curve.ts'
import { type CurveLaw, type LawParameter, logLine, type Target, targetsOf } from './law.ts'

/** Voltage of a point of a diode, forward above zero, V. */
const voltageOf = (p: CurvePoint): number | undefined =>
  p.values.V_F ?? (p.values.V_R === undefined ? undefined : -p.values.V_R)

/** A point whose current is read in reverse, as a forward current below zero. */
function asForward(p: CurvePoint): CurvePoint {
  const { I_R: ir } = p.values
  if (ir === undefined || p.values.I_F !== undefined) return p
  return { ...p, values: { ...p.values, I_F: -ir }, u: p.u.I_R === undefined ? p.u : { ...p.u, I_F: p.u.I_R } }
}

/** Steepest rise of ln I with V_R that is no breakdown, 1/V. */
const breakdownRise = 1

/** The law of a diode: junction with ideality, series and parallel resistance, and breakdown where it was reached. */
export function diodeCurveLaw(curve: Curve, temperatureC: number): CurveLaw {
  const points = curve.points.map(asForward)
  const targets = targetsOf(points, ['I_F'], (p, i) => {
    const v = voltageOf(p)
    return v !== undefined && v * i > 0
  })
  const vt = thermalVoltage(kelvin(temperatureC))
  const voltages = new Float64Array(targets.length)
  for (let k = 0; k < voltages.length; k++) voltages[k] = voltageOf(targets[k]!.point)!
  const forward = sideOf(targets, voltages, 1)
  const reverse = sideOf(targets, voltages, -1)
  const parameters = [...junctionParameters(forward, reverse, vt), ...leakParameters(reverse)]
  const knee = breakdownOf(reverse)
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

/** Readings in one direction, their signs taken off. */
interface Side {
  readonly volts: readonly number[]
  readonly amperes: readonly number[]
}

function sideOf(targets: readonly Target[], voltages: Float64Array, sign: 1 | -1): Side {
  const volts: number[] = []
  const amperes: number[] = []
  for (let k = 0; k < targets.length; k++) {
    const { value } = targets[k]!
    if (!(sign * value > 0)) continue
    volts.push(sign * voltages[k]!)
    amperes.push(sign * value)
  }
  return { volts, amperes }
}

/** Those above a voltage and below a current. */
function within({ volts, amperes }: Side, aboveV: number, belowA: number): Side {
  const keep = { volts: [] as number[], amperes: [] as number[] }
  for (let k = 0; k < volts.length; k++) {
    if (!(volts[k]! > aboveV && amperes[k]! < belowA)) continue
    keep.volts.push(volts[k]!)
    keep.amperes.push(amperes[k]!)
  }
  return keep
}

interface JunctionStart {
  readonly is: number
  readonly n: number
  readonly rs: number
}

/** The straight part of ln I gives I_S and n, the largest current R_S; then all of them come from all readings. */
function junctionStarts(forward: Side, reverse: Side, vt: number): JunctionStart {
  const most = forward.amperes.reduce((m, i) => Math.max(m, i), 0)
  const low = within(forward, 3 * vt, most / 5)
  const used = low.volts.length >= 2 ? low : forward
  const line = logLine(used.volts, used.amperes)
  const n = line === undefined ? 1 : Math.min(4, Math.max(0.8, 1 / (line.slope * vt)))
  const is =
    line === undefined ? reverse.amperes.reduce((m, i) => Math.min(m, i), Number.POSITIVE_INFINITY) : Math.exp(line.at0)
  const top = forward.volts[forward.amperes.indexOf(most)]
  const left = top === undefined ? 0 : top - n * vt * Math.log1p(most / is)
  const first = { is, n, rs: left > 0 ? left / most : 0.01 * (vt / (most || 1)) }
  const conducting = within(forward, 3 * vt, Number.POSITIVE_INFINITY)
  return (conducting.volts.length > 4 ? junctionPlane(conducting, first, vt) : undefined) ?? first
}

/** V = n V_T ln (I + I_S) - n V_T ln I_S + R_S I by weighted least squares, the first I_S being known near enough. */
function junctionPlane({ volts, amperes }: Side, near: JunctionStart, vt: number): JunctionStart | undefined {
  const logs = new Float64Array(volts.length)
  const weights = new Float64Array(volts.length)
  let [whole, log, current, voltage] = [0, 0, 0, 0]
  for (let k = 0; k < logs.length; k++) {
    const weight = 1 / (near.n * vt + near.rs * amperes[k]!) ** 2
    logs[k] = Math.log(amperes[k]! + near.is)
    weights[k] = weight
    whole += weight
    log += weight * logs[k]!
    current += weight * amperes[k]!
    voltage += weight * volts[k]!
  }
  let [ll, lc, cc, lv, cv] = [0, 0, 0, 0, 0]
  for (let k = 0; k < logs.length; k++) {
    const l = logs[k]! - log / whole
    const c = amperes[k]! - current / whole
    const v = volts[k]! - voltage / whole
    ll += weights[k]! * l * l
    lc += weights[k]! * l * c
    cc += weights[k]! * c * c
    lv += weights[k]! * l * v
    cv += weights[k]! * c * v
  }
  const det = ll * cc - lc * lc
  const step = (lv * cc - cv * lc) / det
  const rs = (cv * ll - lv * lc) / det
  if (!(step > 0.5 * vt && step < 10 * vt && rs > 0)) return undefined
  return { is: Math.exp((log + (rs * current - voltage) / step) / whole), n: step / vt, rs }
}

function junctionParameters(forward: Side, reverse: Side, vt: number): LawParameter[] {
  const { is, n, rs } = junctionStarts(forward, reverse, vt)
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
      ...(forward.volts.length === 0 ? { held: 'only reverse readings: they say nothing of it' } : {}),
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
      ...(forward.volts.length < 4 ? { held: 'fewer than four forward readings' } : {}),
    },
  ]
}

/** Leakage beside the junction, where reverse readings can show it. */
function leakParameters({ volts, amperes }: Side): LawParameter[] {
  if (volts.length < 2) return []
  const most = volts.reduce((m, v, k) => Math.max(m, v / amperes[k]!), 0)
  return [
    { symbol: 'R_P', unit: 'ohm', start: most * 3, low: 1, high: 1e18, scale: 'log', absent: 1e18, isGoneAbove: true },
  ]
}

/** i = I_S (exp(v_j / n V_T) - 1) + v / R_P with its slopes, R_S in series with the junction, in closed form. */
function plainLaw(voltages: Float64Array, vt: number): Required<Pick<CurveLaw, 'evaluate' | 'slopes'>> {
  const junction = new Float64Array(voltages.length)
  const stood = new Float64Array(voltages.length)
  const last = new Float64Array(3).fill(Number.NaN)
  const settle = (p: Float64Array): void => {
    if (last.every((v, j) => v === p[j])) return
    last.set(p.subarray(0, 3))
    seriesJunctionCurrents({ saturationA: p[0]!, stepV: p[1]! * vt, seriesOhm: p[2]! }, voltages, junction, stood)
  }
  return {
    evaluate: (p, values) => {
      settle(p)
      const leak = p.length > 3 ? 1 / p[3]! : 0
      for (let i = 0; i < values.length; i++) values[i] = junction[i]! + leak * voltages[i]!
    },
    slopes: (p, into) => {
      settle(p)
      const [is, n, rs] = [p[0]!, p[1]!, p[2]!]
      const [byIs, byN, byRs] = [into[0]!, into[1]!, into[2]!]
      for (let i = 0; i < junction.length; i++) {
        const current = junction[i]!
        const rise = (current + is) / (n * vt)
        const whole = 1 + rise * rs
        byIs[i] = current / (is * whole)
        byN[i] = (-rise * (voltages[i]! - current * rs)) / (n * whole)
        byRs[i] = (-rise * current) / whole
      }
      if (p.length > 3) for (let i = 0; i < junction.length; i++) into[3]![i] = -voltages[i]! / p[3]! ** 2
    },
  }
}

interface Knee {
  readonly voltageV: number
  readonly currentA: number
}

/** Where reverse current rises so steeply that it is breakdown: its last reading, and the voltage there. */
function breakdownOf({ volts, amperes }: Side): Knee | undefined {
  const [last, before] = [...volts.keys()].sort((a, b) => volts[b]! - volts[a]!)
  if (before === undefined || last === undefined) return undefined
  const step = volts[last]! - volts[before]!
  if (!(step > 0) || Math.log(amperes[last]! / amperes[before]!) / step < breakdownRise) return undefined
  return { voltageV: volts[last]!, currentA: amperes[last]! }
}

const breakdownParameters = (knee: Knee): readonly LawParameter[] => [
  { symbol: 'V_BR', card: 'bv', unit: 'V', start: knee.voltageV, low: 0.1, high: 1e5, scale: 'linear' },
  { symbol: 'n_BR', card: 'nbv', unit: '1', start: 1.5, low: 0.05, high: 1e3, scale: 'log' },
]

function breakdownLaw(voltages: Float64Array, temperatureC: number, ibv: number): CurveLaw['evaluate'] {
  return (p, values) => {
    const [is, n, rs, rp, bv, nbv] = p as unknown as readonly number[]
    const card = { is: is!, n: n!, rs: rs!, bv: bv!, nbv: nbv!, ibv, tnom: temperatureC }
    const model = diodeAt(card, kelvin(temperatureC))
    for (const [i, v] of voltages.entries()) values[i] = (diodeCurrent(model, v) ?? Number.NaN) + v / rp!
  }
}
