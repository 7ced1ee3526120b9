import { FaultError } from '#core/fault'
import { type FitParameter, fitModel, type ModelFit, type ModelFitOptions, type RobustKind } from '#core/numeric'
import { bipolarCurveLaw } from './bipolar-curve-law.ts'
import type { Curve } from './curve.ts'
import { type CurveFit, described, type Held, isKnown } from './describe-fit.ts'
import { diodeCurveLaw } from './diode-law.ts'
import { fieldCurveLaw } from './field-law.ts'
import type { CurveLaw } from './law.ts'
import { isLeakage, leakageCurveLaw } from './leakage-law.ts'

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
  readonly onStep?: ModelFitOptions['onStep']
}

export const fitCurveDefaults = {
  temperatureC: 25,
  space: 'linear',
  robust: 'none',
  relative: 0.01,
  fix: {},
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
  const law = lawOf(curve, o.temperatureC)
  const start = firstHeld(law, o)
  checkCount(curve, law, start)
  const { fit, held } = without(law, o, start)
  return described(curve, law, { temperatureC: o.temperatureC, space: o.space, relative: o.relative }, fit, held)
}

function firstHeld(law: CurveLaw, o: FitCurveOptions): Held {
  const held = new Map<number, { value: number; why: string }>()
  const known = law.parameters.map((p) => p.symbol)
  for (const [j, p] of law.parameters.entries())
    if (p.held !== undefined) held.set(j, { value: p.absent ?? p.start, why: p.held })
  for (const [symbol, value] of Object.entries(o.fix)) {
    const j = law.parameters.findIndex(
      (p) => p.symbol.toLowerCase() === symbol.toLowerCase() || p.card === symbol.toLowerCase(),
    )
    if (j < 0)
      throw new FaultError({
        code: 'not-found',
        what: `parameter of a ${law.kind}`,
        name: symbol,
        near: [],
        mend: `Its parameters are ${known.join(', ')}.`,
      })
    held.set(j, { value, why: 'you gave its value' })
  }
  return held
}

function checkCount(curve: Curve, law: CurveLaw, held: Held): void {
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

/**
 * Parameters are found to this part of their standard uncertainty.
 *
 * @see D. Bates, D. Watts, Technometrics 23 (1981) 179-183, whose value it is
 */
const closeEnough = 1e-3

/** One fit with some parameters held. */
function fitWith(law: CurveLaw, o: FitCurveOptions, held: Held, from?: readonly number[]): ModelFit {
  const parameters = law.parameters.map((p, j): FitParameter => {
    const hold = held.get(j)
    if (hold !== undefined) return { name: p.symbol, start: hold.value, fixed: true }
    const wish = from?.[j] ?? p.start
    return { name: p.symbol, start: Math.min(p.high, Math.max(p.low, wish)), low: p.low, high: p.high, scale: p.scale }
  })
  const isLog = o.space === 'log'
  const y = law.targets.map((t) => (isLog ? Math.log(Math.abs(t.value)) : t.value))
  const sigma = law.targets.map((t) => (t.u ?? o.relative * Math.abs(t.value)) / (isLog ? Math.abs(t.value) : 1))
  const model = isLog ? inLogarithms(law) : law
  const robust = { robust: o.robust, ...(o.onStep === undefined ? {} : { onStep: o.onStep }) }
  return fitModel(model, y, parameters, {
    sigma,
    trust: isKnown(law) ? 'sigma' : 'residuals',
    mostSteps: 200,
    offset: closeEnough,
    ...robust,
  })
}

function inLogarithms(law: CurveLaw): Pick<CurveLaw, 'evaluate' | 'slopes'> {
  const sign = law.targets.map((t) => Math.sign(t.value))
  const plain = new Float64Array(sign.length)
  const evaluate: CurveLaw['evaluate'] = (p, values) => {
    law.evaluate(p, plain)
    for (const [i, s] of sign.entries()) values[i] = Math.log(s * plain[i]!)
  }
  if (law.slopes === undefined) return { evaluate }
  return {
    evaluate,
    slopes: (p, into) => {
      law.evaluate(p, plain)
      law.slopes!(p, into)
      for (const column of into) for (let i = 0; i < column.length; i++) column[i]! /= plain[i]!
    },
  }
}

/** A relative standard uncertainty above this makes a parameter doubtful: it is tried without. */
const doubtful = 0.3

/** Chi-square by which leaving a parameter out must raise the misfit, else the data cannot tell it: 95 %, one parameter. */
const leastRaise = 3.84

/** Fits, and takes out one by one what the data cannot tell from being absent. */
function without(law: CurveLaw, o: FitCurveOptions, start: Held): { fit: ModelFit; held: Held } {
  const held = new Map(start)
  const optional = law.parameters.flatMap((p, j) => (p.absent !== undefined && !held.has(j) ? [j] : []))
  while (optional.length > 0 && law.targets.length < law.parameters.length - held.size + 1) {
    const j = optional.pop()!
    held.set(j, { value: law.parameters[j]!.absent!, why: 'there are too few readings to tell it' })
    for (const d of dependents(law, j))
      held.set(d, { value: law.parameters[d]!.start, why: `${law.parameters[j]!.symbol} is absent` })
  }
  let fit = fitWith(law, o, held)
  for (;;) {
    const next = weakest(law, fit, held)
      .map((j) => tried(law, o, fit, held, j))
      .find((t) => t !== undefined)
    if (next === undefined) return { fit, held }
    for (const [j, h] of next.held) held.set(j, h)
    fit = next.fit
  }
}

/** Doubtful parameters that could be absent, the most doubtful first. */
function weakest(law: CurveLaw, fit: ModelFit, held: Held): readonly number[] {
  const doubt = (j: number): number => {
    const found = fit.held.find((h) => h.index === j)
    const u = Math.sqrt(fit.fittedCovariance[j]![j]!)
    return found !== undefined ? Number.POSITIVE_INFINITY : u
  }
  return law.parameters
    .flatMap((p, j) => (p.absent !== undefined && !held.has(j) && doubt(j) > doubtful ? [j] : []))
    .sort((a, b) => doubt(b) - doubt(a))
}

/** The fit without a parameter, where the data do not object. */
function tried(
  law: CurveLaw,
  o: FitCurveOptions,
  fit: ModelFit,
  held: Held,
  j: number,
): { fit: ModelFit; held: Held } | undefined {
  const { symbol, absent } = law.parameters[j]!
  const more = new Map(held).set(j, { value: absent!, why: `the data cannot tell it from being absent` })
  for (const d of dependents(law, j)) more.set(d, { value: law.parameters[d]!.start, why: `${symbol} is absent` })
  const plain = fitWith(law, o, more, fit.values)
  const scale = isKnown(law) ? 1 : Math.max(fit.squares / Math.max(1, fit.dof), 1e-16)
  return plain.squares - fit.squares <= leastRaise * scale ? { fit: plain, held: more } : undefined
}

/** Parameters that mean nothing without another one. */
function dependents(law: CurveLaw, j: number): readonly number[] {
  return law.parameters[j]!.symbol === 'I_SE' ? [law.parameters.findIndex((p) => p.symbol === 'N_E')] : []
}
