import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { type Curve, type CurveFit, type CurvePoint, type FitKind, fitCurve, lawOf } from '#core/fit'
import { Random } from '#core/numeric'
import { bipolarAt, bipolarPoint, diodeAt, diodeCurrent, kelvin, thermalVoltage } from '#core/physics'

/** Seconds for fitting one curve of an invented part, and what lmfit takes for it. */
export interface FittingFigure {
  readonly what: string
  readonly readings: number
  readonly parameters: number
  /** From the readings to parameters with covariance, first values and what the data cannot tell included. */
  readonly ours: number
  /** The search and its covariance alone, from our first values. */
  readonly lmfit?: number
  readonly version?: string
  /** Chi-square of both, which must be one. */
  readonly chiSquare: number
  readonly peerChiSquare?: number
}

const temperatureC = 25
/** Runs that count, and as many times more before them that do not, so that the code is compiled as far as it will be. */
const runs = { diode: 2000, bjt: 60 } as const
const warmUps = 5

/** Figures of one run, after runs that do not count. lmfit is left out where no Python has it. */
export function fitting(root: string): readonly FittingFigure[] {
  return [diodeCurve(), bipolarCurve()].map((curve) => {
    const fit = fitCurve(curve, { temperatureC })
    const figure = {
      what: curve.name,
      readings: fit.points,
      parameters: fit.correlation.symbols.length,
      chiSquare: fit.chiSquare,
    }
    const count = curve.kind === 'diode' ? runs.diode : runs.bjt
    const ours = least(secondsOf(curve, count))
    const peer = lmfitOf(root, curve, fit, count)
    if (peer === undefined) return { ...figure, ours }
    if (!(Math.abs(peer.chisqr / fit.chiSquare - 1) < 1e-4))
      throw new Error(`${curve.name}: chi-square ${fit.chiSquare}, lmfit ${peer.chisqr}`)
    return {
      ...figure,
      ours,
      lmfit: least(peer.seconds),
      version: peer.lmfit,
      peerChiSquare: peer.chisqr,
    }
  })
}

/** The time of the run that other work on the machine disturbed least. */
const least = (seconds: readonly number[]): number => seconds.reduce((a, b) => Math.min(a, b))

function secondsOf(curve: Curve, count: number): readonly number[] {
  const all = Array.from({ length: (1 + warmUps) * count }, () => {
    const began = performance.now()
    fitCurve(curve, { temperatureC })
    return (performance.now() - began) / 1000
  })
  return all.slice(warmUps * count)
}

interface Peer {
  readonly seconds: readonly number[]
  readonly chisqr: number
  readonly lmfit: string
}

/** The same readings, weights, free parameters and first values given to benchmarks/fit.py. */
function lmfitOf(root: string, curve: Curve, fit: CurveFit, count: number): Peer | undefined {
  const law = lawOf(curve, temperatureC)
  const problem = {
    kind: curve.kind,
    vt: thermalVoltage(kelvin(temperatureC)),
    targets: law.targets.map((t) => ({ ...t.point.values, of: t.symbol, value: t.value, sigma: 0.01 * t.value })),
    parameters: law.parameters.map((p) => ({
      ...p,
      isFree: fit.correlation.symbols.includes(p.symbol),
      value: fit.parameters.find((f) => f.symbol === p.symbol)!.value,
    })),
    runs: count,
  }
  for (const python of ['python3', '/usr/bin/python3']) {
    const ran = spawnSync(python, [join(root, 'benchmarks/fit.py')], {
      input: JSON.stringify(problem),
      encoding: 'utf8',
    })
    if (ran.status === 0) return JSON.parse(ran.stdout) as Peer
    if (ran.error === undefined && !ran.stderr.includes('ModuleNotFoundError')) throw new Error(ran.stderr)
  }
  return undefined
}

const span = (from: number, to: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))

/** Currents with errors of 1 % of each; what was set stays. */
function readingsOf(name: string, kind: FitKind, points: readonly CurvePoint['values'][]): Curve {
  const errors = new Float64Array(2 * points.length)
  new Random(1958, name).fillNormal(errors)
  const noisy = (v: CurvePoint['values'], i: number): CurvePoint['values'] => ({
    ...v,
    ...(v.I_F === undefined ? {} : { I_F: v.I_F * (1 + 0.01 * errors[2 * i]!) }),
    ...(v.I_C === undefined ? {} : { I_C: v.I_C * (1 + 0.01 * errors[2 * i]!) }),
    ...(v.I_B === undefined || v.V_BE === undefined ? {} : { I_B: v.I_B * (1 + 0.01 * errors[2 * i + 1]!) }),
  })
  const rows = points.map((p, i) => ({ row: i + 2, values: noisy(p, i), u: {} }))
  return { name, kind, polarity: 'n', points: rows, notes: [] }
}

function diodeCurve(): Curve {
  const model = diodeAt({ is: 4e-9, n: 1.85, rs: 1.2, tnom: temperatureC }, kelvin(temperatureC))
  const points = span(0.2, 0.95, 200).map((v) => ({ V_F: v, I_F: diodeCurrent(model, v)! }))
  return readingsOf('a diode', 'diode', points)
}

/** A Gummel plot at one collector voltage and an output family of five base currents. */
function bipolarCurve(): Curve {
  const card = {
    is: 6e-15,
    bf: 180,
    ise: 4e-14,
    ne: 1.6,
    ikf: 0.08,
    vaf: 70,
    re: 0.6,
    rb: 90,
    rc: 2,
    tnom: temperatureC,
  }
  const model = bipolarAt(card, kelvin(temperatureC))
  const gummel = span(0.35, 0.85, 60).map((vbe) => {
    const { ic, ib } = bipolarPoint(model, { vbe, vce: 4.5 })!
    return { V_BE: vbe, V_CE: 4.5, I_B: ib, I_C: ic }
  })
  const family = [5e-6, 1e-5, 2e-5, 5e-5, 1e-4].flatMap((ib) =>
    [...span(0.1, 0.5, 9), ...span(1, 10, 10)].map((vce) => ({
      V_CE: vce,
      I_B: ib,
      I_C: bipolarPoint(model, { ib, vce })!.ic,
    })),
  )
  return readingsOf('a transistor, Gummel plot and output family', 'bjt', [...gummel, ...family])
}
