import { FaultError } from '#core/fault'
import type { ModelFitOptions, RobustKind } from '#core/numeric'
import { bipolarCurveLaw } from './bipolar-curve-law.ts'
import type { Curve } from './curve.ts'
import { type CurveFit, described, type Held } from './describe-fit.ts'
import { diodeCurveLaw } from './diode-law.ts'
import { fieldCurveLaw } from './field-law.ts'
import { type CurveLaw, indexOfParameter, type LawParameter } from './law.ts'
import { isLeakage, leakageCurveLaw } from './leakage-law.ts'
import { leaveOut } from './leave-out.ts'
import { plainly } from './observed.ts'

export interface FitCurveOptions {
  /** Junction temperature during the sweep, degC: parameters hold at it. */
  readonly temperatureC: number
  /** `linear`: currents against their uncertainty; `log`: their logarithms. Decades count evenly in both. */
  readonly space: 'linear' | 'log'
  readonly robust: RobustKind
  /** Standard uncertainty of a current as a part of it, where the file states none; it is then set by the scatter. */
  readonly relative: number
  /** Values to hold, by symbol. */
  readonly fix: Readonly<Record<string, number>>
  /** Lowest and highest value that may come out, by symbol. */
  readonly bounds: Readonly<Record<string, readonly [low: number, high: number]>>
  readonly onStep?: ModelFitOptions['onStep']
}

export const fitCurveDefaults = {
  temperatureC: 25,
  space: 'linear',
  robust: 'none',
  relative: 0.01,
  fix: {},
  bounds: {},
} as const satisfies FitCurveOptions

/** The law that fits a curve of a kind. */
export function lawOf(curve: Curve, temperatureC: number): CurveLaw {
  switch (curve.kind) {
    case 'diode':
      return isLeakage(curve) ? leakageCurveLaw(curve, temperatureC) : diodeCurveLaw(curve, temperatureC)
    case 'bjt':
      return bipolarCurveLaw(curve, temperatureC)
    case 'jfet':
    case 'mosfet':
      return fieldCurveLaw(curve, temperatureC)
  }
}

/**
 * Fits the law of a part to its curve. First values come from the parts of the curve where each parameter shows most;
 * then all are fitted together. A parameter that the data cannot tell from being absent is held absent, one that they
 * cannot tell from others is held where it stands, each with the reason.
 *
 * @throws {FaultError} where the curve has too few readings that can be used, or a value to hold names nothing
 */
export function fitCurve(curve: Curve, options: Partial<FitCurveOptions> = {}): CurveFit {
  const o = { ...fitCurveDefaults, ...options }
  const law = bounded(lawOf(curve, o.temperatureC), o.bounds)
  const start = firstHeld(law, o.fix)
  checkCount(curve, law, start)
  const { fit, held } = leaveOut(law, plainly(law, o), start)
  return described(curve, law, { temperatureC: o.temperatureC, space: o.space, relative: o.relative }, fit, held)
}

/** What is held from the beginning, by the law or by wish. @throws {FaultError} where a wish names nothing */
export function firstHeld(law: CurveLaw, fix: FitCurveOptions['fix']): Held {
  const held = new Map<number, { value: number; why: string }>()
  for (const [j, p] of law.parameters.entries())
    if (p.held !== undefined) held.set(j, { value: p.absent ?? p.start, why: p.held })
  for (const [symbol, value] of Object.entries(fix))
    held.set(indexOfParameter(law, symbol), { value, why: 'you gave its value' })
  return held
}

/** The law with the bounds that were wished for. @throws {FaultError} where a wish names nothing or allows nothing */
function bounded(law: CurveLaw, bounds: FitCurveOptions['bounds']): CurveLaw {
  const wished = new Map(Object.entries(bounds).map(([symbol, b]) => [indexOfParameter(law, symbol), b]))
  if (wished.size === 0) return law
  const parameters = law.parameters.map((p, j): LawParameter => {
    const [low, high] = wished.get(j) ?? [p.low, p.high]
    const least = Math.max(p.low, low)
    const most = Math.min(p.high, high)
    if (!(least < most))
      throw new FaultError({
        code: 'out-of-domain',
        name: `bounds of ${p.symbol}`,
        value: `${low} to ${high}`,
        allowed: `the lower before the higher, between ${p.low} and ${p.high}`,
      })
    return { ...p, low: least, high: most, start: Math.min(most, Math.max(least, p.start)) }
  })
  return { ...law, parameters }
}

/** @throws {FaultError} where there are fewer readings than parameters that must be fitted */
export function checkCount(curve: Curve, law: CurveLaw, held: Held): void {
  const need = law.parameters.filter((p, j) => p.absent === undefined && !held.has(j)).length
  if (law.targets.length >= Math.max(1, need)) return
  throw new FaultError({
    code: 'bad-input',
    place: { file: curve.name },
    value: `${law.targets.length} readings`,
    problem: `are too few that can be used: ${need} parameters of a ${law.kind} have to be fitted`,
    mend: 'Add readings: a current with the voltage it was read at, neither of them 0.',
  })
}
