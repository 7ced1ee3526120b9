import { type FitModel, type FitParameter, fitModel, type ModelFit, type ModelFitOptions } from '#core/numeric'
import { type Held, isKnown } from './describe-fit.ts'
import type { CurveLaw } from './law.ts'

/** Readings and law as the search sees them. */
export interface Observed {
  readonly model: FitModel
  readonly y: readonly number[]
  readonly sigma: readonly number[]
  /** Whether sigma is an uncertainty, or only says how readings weigh. */
  readonly isKnown: boolean
  readonly robust?: ModelFitOptions['robust']
  readonly onStep?: ModelFitOptions['onStep']
}

interface PlainOptions {
  readonly space: 'linear' | 'log'
  readonly relative: number
  readonly robust?: ModelFitOptions['robust'] | undefined
  readonly onStep?: ModelFitOptions['onStep'] | undefined
}

/** Currents, or their logarithms, one by one. */
export function plainly(law: CurveLaw, o: PlainOptions): Observed {
  const isLog = o.space === 'log'
  return {
    model: isLog ? inLogarithms(law) : law,
    y: law.targets.map((t) => (isLog ? Math.log(Math.abs(t.value)) : t.value)),
    sigma: law.targets.map((t) => (t.u ?? o.relative * Math.abs(t.value)) / (isLog ? Math.abs(t.value) : 1)),
    isKnown: isKnown(law),
    ...(o.robust === undefined ? {} : { robust: o.robust }),
    ...(o.onStep === undefined ? {} : { onStep: o.onStep }),
  }
}

/** The law of the logarithms of the currents. */
export function inLogarithms(law: CurveLaw): FitModel {
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

/**
 * Parameters are found to this part of their standard uncertainty.
 *
 * @see D. Bates, D. Watts, Technometrics 23 (1981) 179-183, whose value it is
 */
const closeEnough = 1e-3

/** One fit with some parameters held. */
export function fitObserved(law: CurveLaw, seen: Observed, held: Held, from?: readonly number[]): ModelFit {
  const parameters = law.parameters.map((p, j): FitParameter => {
    const hold = held.get(j)
    if (hold !== undefined) return { name: p.symbol, start: hold.value, fixed: true }
    const wish = from?.[j] ?? p.start
    return { name: p.symbol, start: Math.min(p.high, Math.max(p.low, wish)), low: p.low, high: p.high, scale: p.scale }
  })
  const { robust = 'none', onStep } = seen
  return fitModel(seen.model, seen.y, parameters, {
    sigma: seen.sigma,
    trust: seen.isKnown ? 'sigma' : 'residuals',
    mostSteps: 200,
    offset: closeEnough,
    robust,
    ...(onStep === undefined ? {} : { onStep }),
  })
}
