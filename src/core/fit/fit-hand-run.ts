import { FaultError } from '#core/fault'
import type { ModelFit } from '#core/numeric'
import { leaf, type Quantity, standardUncertainty, sumBudget } from '#core/quantity'
import { coverageFactor, effectiveDof } from '#core/uncertainty'
import type { Curve } from './curve.ts'
import { type CurveFit, described, type FittedParameter, type Held } from './describe-fit.ts'
import { checkCount, firstHeld, lawOf } from './fit-curve.ts'
import { curveOfRun, type HandRun } from './hand-run.ts'
import { backward, heldDoubts, jointErrors, together } from './joint-error.ts'
import type { CurveLaw } from './law.ts'
import { leaveOut } from './leave-out.ts'
import { limitOf } from './limit.ts'
import { type Observed, plainly } from './observed.ts'

export interface HandFitOptions {
  /** Values to hold, by symbol. */
  readonly fix: Readonly<Record<string, number>>
  /** Standard uncertainty of values to hold, where they are doubtful. */
  readonly fixU: Readonly<Record<string, number>>
}

/** How often the errors are taken at the parameters they gave: what was set acts through the slope of the law. */
const rounds = 3

/**
 * Fits the law of a part to the few readings of a hand run, whose errors are known and often shared: one movement, one
 * range, one thermometer. Readings weigh by all that is known of their errors together (generalised least squares on
 * the logarithms of the currents; voltages that were set act through the slope of the law), and each parameter carries
 * the budget of its causes, so that parameters of parts read on one instrument may be compared.
 *
 * What the readings cannot tell is held, with the reason; of a resistance or a knee that is left out it says how large
 * or small it may be. With as many readings as parameters there is no chi-square: nothing can contradict the law.
 *
 * @throws {FaultError} where there are fewer readings than parameters that must be fitted, a current has no uncertainty
 *   at all, or a value to hold names nothing
 * @see A. C. Aitken, Proc. R. Soc. Edinburgh 55 (1935), 42-48; JCGM 102:2011 for several parameters from one budget
 */
export function fitHandRun(run: HandRun, options: Partial<HandFitOptions> = {}): CurveFit {
  const o = { fix: {}, fixU: {}, ...options }
  const temperatureC = run.temperature.value
  const curve = curveOfRun(run)
  const law = lawOf(curve, temperatureC)
  const start = firstHeld(law, o.fix)
  checkCount(curve, law, start)
  let found = leaveOut(law, plainly(law, { space: 'log', relative: 0.01 }), start)
  let errors: readonly Quantity[] = []
  let turned: NonNullable<ReturnType<typeof together>> | undefined
  for (let round = 0; round < rounds; round++) {
    errors = jointErrors(run, curve, lawOf, found.fit.values, heldDoubts(law, start, o.fixU))
    turned = together(law, errors)
    if (turned === undefined) throw noUncertainty(run)
    found = leaveOut(law, turned.seen, start)
  }
  const budgets = budgetsOf(law, found.fit, turned!, errors)
  return describedRun(curve, law, turned!.seen, found, { temperatureC, budgets, errors })
}

const noUncertainty = (run: HandRun): FaultError =>
  new FaultError({
    code: 'bad-input',
    place: { file: run.name },
    value: 'a reading',
    problem: 'has no uncertainty of its own, which the fit of a hand run needs',
    mend: 'Add a column u(I_F), u(I_C) or the like, write currents as 1.20(2) mA, or give the relative uncertainty of all, such as 1 %.',
  })

interface Known {
  readonly temperatureC: number
  readonly budgets: ReadonlyMap<number, Quantity>
  readonly errors: readonly Quantity[]
}

/** Budget of each fitted parameter: its readings' errors, each times how far it moves the parameter. */
function budgetsOf(
  law: CurveLaw,
  fit: ModelFit,
  { seen, lower }: NonNullable<ReturnType<typeof together>>,
  errors: readonly Quantity[],
): ReadonlyMap<number, Quantity> {
  const used = [...law.parameters.keys()].filter((j) => fit.fittedCovariance[j]![j]! > 0)
  const slopes = new Map(used.map((j) => [j, slopeOf(law, seen, fit.values, j)]))
  return new Map(
    used.map((j) => {
      const pull = new Float64Array(errors.length)
      for (const k of used)
        for (let i = 0; i < pull.length; i++) pull[i]! += fit.fittedCovariance[j]![k]! * slopes.get(k)![i]!
      backward(lower, pull)
      const value = fit.values[j]!
      const inner = law.parameters[j]!.scale === 'log' ? value : 1
      const what = { kind: 'read', what: law.parameters[j]!.symbol, seen: '' } as const
      return [j, { ...leaf(value, '1', what), ...sumBudget(errors.map((q, i) => [q, pull[i]! * inner])) }]
    }),
  )
}

/** Slopes of the turned readings with one parameter, or with its logarithm where it is fitted so. */
function slopeOf(law: CurveLaw, seen: Observed, values: readonly number[], j: number): Float64Array {
  const isLog = law.parameters[j]!.scale === 'log'
  const step = isLog ? 1e-5 : 1e-5 * (Math.abs(values[j]!) || 1)
  const at = (d: number): Float64Array => {
    const into = new Float64Array(law.targets.length)
    seen.model.evaluate(Float64Array.from(values.with(j, isLog ? values[j]! * Math.exp(d) : values[j]! + d)), into)
    return into
  }
  const [up, down] = [at(step), at(-step)]
  return up.map((v, i) => (v - down[i]!) / (2 * step))
}

function describedRun(
  curve: Curve,
  law: CurveLaw,
  seen: Observed,
  { fit, held }: { readonly fit: ModelFit; readonly held: Held },
  { temperatureC, budgets, errors }: Known,
): CurveFit {
  const plain = described(curve, law, { temperatureC, space: 'log', relative: 0.01 }, fit, held)
  const parameters = plain.parameters.map((p, j): FittedParameter => {
    const q = budgets.get(j)
    if (p.standing === 'fitted' && q !== undefined) return withBudget(p, q, law.parameters[j]!.scale)
    const limit = limitOf(law, seen, fit, held, j)
    return limit === undefined ? p : { ...p, limit }
  })
  const residuals = plain.residuals.map((r, i) => ({
    ...r,
    standardised: Math.log(r.measured / r.fitted) / standardUncertainty(errors[i]!),
  }))
  return { ...plain, parameters, residuals }
}

function withBudget(p: FittedParameter, q: Quantity, scale: 'linear' | 'log'): FittedParameter {
  const u = standardUncertainty(q)
  const wide = coverageFactor(effectiveDof(q)) * u
  const [low, high] =
    scale === 'log'
      ? [p.value * Math.exp(-wide / p.value), p.value * Math.exp(wide / p.value)]
      : [p.value - wide, p.value + wide]
  return { ...p, u, low, high, budget: q.budget }
}
