import { chiSquareTail, type ModelFit } from '#core/numeric'
import type { Term } from '#core/quantity'
import { coverageFactor } from '#core/uncertainty'
import type { Curve, FitKind } from './curve.ts'
import type { CurveLaw, LawParameter } from './law.ts'

/** A parameter as fitted, or held and why. */
export interface FittedParameter {
  readonly symbol: string
  /** Its name on a `.model` card, where it has one. */
  readonly card?: string
  readonly unit: string
  readonly value: number
  /** Standard uncertainty; left out where it was held. */
  readonly u?: number
  /** 95 % interval; of a parameter fitted by its logarithm it is lopsided. */
  readonly low?: number
  readonly high?: number
  readonly standing: 'fitted' | 'held'
  /** Why it was held, a sentence. */
  readonly why?: string
  /** Of a hand run: how far each cause of the readings moves it. */
  readonly budget?: readonly Term[]
  /** Of a hand run, where it was left out: how large, or how small, it may be for all the readings say (95 %). */
  readonly limit?: { readonly atMost: number } | { readonly atLeast: number }
}

/** One reading against the law. */
export interface FitResidual {
  readonly row: number
  readonly symbol: string
  readonly measured: number
  readonly fitted: number
  /** Measured less fitted, in standard uncertainties. */
  readonly standardised: number
}

/** A curve's parameters with what is known about them. */
export interface CurveFit {
  readonly name: string
  readonly kind: FitKind
  readonly polarity: 'n' | 'p'
  readonly temperatureC: number
  readonly space: 'linear' | 'log'
  readonly parameters: readonly FittedParameter[]
  /** Of the fitted parameters, in their order. */
  readonly correlation: { readonly symbols: readonly string[]; readonly matrix: readonly (readonly number[])[] }
  readonly chiSquare: number
  readonly dof: number
  /** Scatter of the readings about the law, as a part of each; where the file states uncertainties, left out. */
  readonly scatter?: number
  readonly points: number
  readonly residuals: readonly FitResidual[]
  readonly ended: ModelFit['ended']
  readonly notes: readonly string[]
}

/** What is held, by index: value and why. */
export type Held = ReadonlyMap<number, { readonly value: number; readonly why: string }>

/** Whether the file states the uncertainty of every reading. */
export const isKnown = (law: CurveLaw): boolean => law.targets.every((t) => t.u !== undefined)

/** Sum of squared residuals, each as far as the robust rule lets it pull; without one it is chi-square. */
export const misfit = ({ residuals, weights }: Pick<ModelFit, 'residuals' | 'weights'>): number =>
  residuals.reduce((sum, r, i) => sum + weights[i]! * r * r, 0)

interface DescribeOptions {
  readonly temperatureC: number
  readonly space: 'linear' | 'log'
  readonly relative: number
}

const heldWords = {
  fixed: () => 'it was held',
  bound: () => 'it stands at its bound, and the readings would take it beyond',
  'no effect': () => 'it has no effect on what was read',
  others: (names: string) => `the data cannot tell it from ${names}`,
} as const

export function described(curve: Curve, law: CurveLaw, o: DescribeOptions, fit: ModelFit, held: Held): CurveFit {
  const factor = isKnown(law)
    ? coverageFactor(Number.POSITIVE_INFINITY)
    : fit.dof > 0
      ? coverageFactor(fit.dof)
      : Number.NaN
  const parameters = law.parameters.map((p, j) => parameterOf(p, j, law, fit, held, factor))
  const used = parameters.flatMap((p, j) => (p.standing === 'fitted' ? [j] : []))
  const matrix = used.map((a) =>
    used.map((b) =>
      a === b
        ? 1
        : fit.fittedCovariance[a]![b]! / Math.sqrt(fit.fittedCovariance[a]![a]! * fit.fittedCovariance[b]![b]!),
    ),
  )
  const fitted = new Float64Array(law.targets.length)
  law.evaluate(Float64Array.from(fit.values), fitted)
  const rows = new Set<number>()
  for (const t of law.targets) rows.add(t.point.row)
  const left = curve.points.length - rows.size
  return {
    name: curve.name,
    kind: curve.kind,
    polarity: curve.polarity,
    temperatureC: o.temperatureC,
    space: o.space,
    parameters,
    correlation: { symbols: used.map((j) => law.parameters[j]!.symbol), matrix },
    chiSquare: fit.squares,
    dof: fit.dof,
    ...(isKnown(law) || fit.dof <= 0 ? {} : { scatter: o.relative * Math.sqrt(misfit(fit) / fit.dof) }),
    points: law.targets.length,
    residuals: law.targets.map((t, i) => ({
      row: t.point.row,
      symbol: t.symbol,
      measured: t.value,
      fitted: fitted[i]!,
      standardised: fit.residuals[i]!,
    })),
    ended: fit.ended,
    notes: [
      ...curve.notes,
      ...law.notes,
      ...(left === 0
        ? []
        : [`${left} rows hold nothing that could be used: currents of 0 or against their voltage, or gaps.`]),
      ...(isKnown(law) ? contradictions(fit) : []),
    ],
  }
}

function parameterOf(
  p: LawParameter,
  j: number,
  law: CurveLaw,
  fit: ModelFit,
  held: Held,
  factor: number,
): FittedParameter {
  const value = fit.values[j]!
  const { symbol, unit } = p
  const about = p.card === undefined ? { symbol, unit, value } : { symbol, card: p.card, unit, value }
  const own = held.get(j)
  if (own !== undefined) return { ...about, standing: 'held', why: own.why }
  const engine = fit.held.find((h) => h.index === j)
  if (engine !== undefined) {
    const names = engine.from.map((k) => law.parameters[k]!.symbol).join(', ')
    return { ...about, standing: 'held', why: heldWords[engine.why](names) }
  }
  if (fit.dof <= 0 && !isKnown(law))
    return {
      ...about,
      standing: 'fitted',
      why: 'as many readings as parameters: nothing is left to tell its uncertainty',
    }
  const u = fit.sd[j]!
  const wide = factor * Math.sqrt(fit.fittedCovariance[j]![j]!)
  const ends = p.scale === 'log' ? [value * Math.exp(-wide), value * Math.exp(wide)] : [value - wide, value + wide]
  return { ...about, u, low: ends[0]!, high: ends[1]!, standing: 'fitted' }
}

/** Chance below which readings are said to contradict the law. */
const unlikely = 0.05

/** What chi-square says where uncertainties are known. */
function contradictions(fit: ModelFit): readonly string[] {
  if (fit.dof <= 0) return ['As many readings as parameters: nothing can contradict the law.']
  if (chiSquareTail(fit.squares, fit.dof) >= unlikely) return []
  return [
    'The readings lie further from the law than their uncertainties allow: a reading or an uncertainty is wrong, or the law does not hold.',
  ]
}
