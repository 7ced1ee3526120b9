import { FaultError } from '#core/fault'
import { type HeldReason, spreadOfFit } from './fit-spread.ts'
import { type RobustKind, robustScale, robustWeight } from './robust.ts'
import { squaresOf } from './search.ts'
import { differenceSlopes, type Evaluate } from './slopes.ts'
import { type ResidualProblem, type TrustOptions, type TrustResult, trustRegion } from './trust-region.ts'

/** A parameter to be fitted. */
export interface FitParameter {
  readonly name: string
  readonly start: number
  readonly low?: number
  readonly high?: number
  /** `log`: positive, and known by its factor; it is fitted as its logarithm. */
  readonly scale?: 'linear' | 'log'
  /** Held at its start. */
  readonly fixed?: boolean
}

/** A law with parameters, evaluated at all observations at once. */
export interface FitModel {
  readonly evaluate: Evaluate
  /** d value / d parameter, a column for each parameter; where it is left out, slopes are taken by differences. */
  readonly slopes?: (parameters: Float64Array, into: readonly Float64Array[]) => void
}

export interface ModelFitOptions extends Partial<TrustOptions> {
  /** Standard uncertainty of each observation, or its relative size where only proportions are known. */
  readonly sigma?: ArrayLike<number>
  /** Whether `sigma` is known (the covariance follows from it) or only says how observations weigh. */
  readonly trust?: 'sigma' | 'residuals'
  /** How far observations far off may pull. */
  readonly robust?: RobustKind
}

/** Parameters fitted to observations, with what is known about them. */
export interface ModelFit {
  /** In the order of the parameters. */
  readonly values: readonly number[]
  /** Standard uncertainty of each; 0 where it was held. */
  readonly sd: readonly number[]
  /** Of the values; rows and columns of held parameters are 0. */
  readonly covariance: readonly (readonly number[])[]
  /** The same of what was fitted: of the logarithm where a parameter has the scale `log`. */
  readonly fittedCovariance: readonly (readonly number[])[]
  readonly held: readonly HeldReason[]
  /** Observation less fitted value, divided by sigma where it was given. */
  readonly residuals: Float64Array
  /** Weight that the robust rule left to each observation; all 1 without it. */
  readonly weights: Float64Array
  /** Sum of squared residuals; with `sigma` it is chi-square. */
  readonly squares: number
  readonly dof: number
  readonly steps: number
  readonly ended: TrustResult['ended']
}

/** Fewest observations, finiteness and bounds, all faults together. */
function check(parameters: readonly FitParameter[], y: ArrayLike<number>, sigma?: ArrayLike<number>): void {
  const faults: { code: 'out-of-domain'; name: string; value: number | string; allowed: string }[] = []
  const refuse = (name: string, value: number, allowed: string): void => {
    faults.push({ code: 'out-of-domain', name, value, allowed })
  }
  const free = parameters.filter((p) => p.fixed !== true).length
  if (y.length < Math.max(1, free)) refuse('count of observations', y.length, `at least ${Math.max(1, free)}`)
  if (sigma !== undefined && sigma.length !== y.length) refuse('length of sigma', sigma.length, `${y.length}`)
  for (let i = 0; i < y.length; i++) {
    if (!Number.isFinite(y[i])) refuse('observation', y[i]!, 'a finite number')
    if (sigma !== undefined && !(sigma[i]! > 0 && Number.isFinite(sigma[i]))) refuse('sigma', sigma[i]!, 'above 0')
  }
  for (const p of parameters) {
    const low = p.low ?? (p.scale === 'log' ? 0 : Number.NEGATIVE_INFINITY)
    if (!Number.isFinite(p.start)) refuse(`start of ${p.name}`, p.start, 'a finite number')
    else if (p.scale === 'log' && !(p.start > 0)) refuse(`start of ${p.name}`, p.start, 'above 0')
    else if (p.start < low || p.start > (p.high ?? Number.POSITIVE_INFINITY))
      refuse(`start of ${p.name}`, p.start, 'within its bounds')
  }
  if (faults.length > 0) throw new FaultError(faults)
}

/** Variables of the search for the free parameters: logarithms where the scale says so. */
export interface Variables {
  readonly parameters: readonly FitParameter[]
  /** Index of the parameter of each variable. */
  readonly free: readonly number[]
}

const isLog = (p: FitParameter): boolean => p.scale === 'log'

function variablesOf({ parameters, free }: Variables, of: (p: FitParameter) => number): Float64Array {
  return Float64Array.from(free, (j) => (isLog(parameters[j]!) ? Math.log(of(parameters[j]!)) : of(parameters[j]!)))
}

function putParameters(v: Variables, variables: Float64Array, into: Float64Array): void {
  for (const [k, j] of v.free.entries()) into[j] = isLog(v.parameters[j]!) ? Math.exp(variables[k]!) : variables[k]!
}

/** The residuals of a model over its free variables, weighted. */
function problemOf(
  model: FitModel,
  y: ArrayLike<number>,
  v: Variables,
  weigh: Float64Array,
): ResidualProblem & { readonly parameters: Float64Array } {
  const count = y.length
  const parameters = Float64Array.from(v.parameters, (p) => p.start)
  const all = v.parameters.map(() => new Float64Array(model.slopes === undefined ? 0 : count))
  const residuals = (variables: Float64Array, into: Float64Array): boolean => {
    putParameters(v, variables, parameters)
    model.evaluate(parameters, into)
    for (let i = 0; i < count; i++) {
      into[i] = (into[i]! - y[i]!) * weigh[i]!
      if (!Number.isFinite(into[i])) return false
    }
    return true
  }
  const slopes: ResidualProblem['slopes'] = (variables, into, care) => {
    if (model.slopes === undefined) {
      const evaluate: Evaluate = (at, values) => {
        putParameters(v, at, parameters)
        model.evaluate(parameters, values)
      }
      const at = variables.slice()
      for (const [k, column] of into.entries()) {
        differenceSlopes(evaluate, at, k, 1, care, column)
        for (let i = 0; i < count; i++) column[i]! *= weigh[i]!
      }
      putParameters(v, variables, parameters)
      return
    }
    putParameters(v, variables, parameters)
    model.slopes(parameters, all)
    for (const [k, j] of v.free.entries()) {
      const inner = isLog(v.parameters[j]!) ? parameters[j]! : 1
      const column = into[k]!
      const from = all[j]!
      for (let i = 0; i < count; i++) column[i] = from[i]! * inner * weigh[i]!
    }
  }
  const low = variablesOf(v, (p) => p.low ?? (isLog(p) ? 0 : Number.NEGATIVE_INFINITY))
  const high = variablesOf(v, (p) => p.high ?? Number.POSITIVE_INFINITY)
  return { count, residuals, slopes, low, high, parameters }
}

/**
 * Fits the parameters of a law to observations by weighted least squares within bounds. A parameter that the
 * observations cannot tell, alone or from others, is held where it stands and named with the reason.
 *
 * @throws {FaultError} `out-of-domain` where observations, uncertainties or starts cannot be used
 * @example
 * const x = [1, 2, 3]
 * fitModel(
 *   { evaluate: (p, values) => x.forEach((xi, i) => { values[i] = p[0]! * Math.exp(xi * p[1]!) }) },
 *   [2.7, 7.4, 20.1],
 *   [{ name: 'a', start: 1, scale: 'log' }, { name: 'b', start: 0.5 }],
 * ).values // about [0.99, 1]
 */
export function fitModel(
  model: FitModel,
  y: ArrayLike<number>,
  parameters: readonly FitParameter[],
  options: ModelFitOptions = {},
): ModelFit {
  check(parameters, y, options.sigma)
  const free = [...parameters.keys()].filter((j) => parameters[j]!.fixed !== true)
  const v: Variables = { parameters, free }
  const plain = new Float64Array(y.length).fill(1)
  if (options.sigma !== undefined) for (let i = 0; i < plain.length; i++) plain[i] = 1 / options.sigma[i]!
  const start = variablesOf(v, (p) => p.start)
  const { result, weights } = search(model, y, v, plain, start, options)
  const values = Float64Array.from(parameters, (p) => p.start)
  putParameters(v, result.variables, values)
  const residuals = new Float64Array(y.length)
  const isPlain = (options.robust ?? 'none') === 'none'
  for (let i = 0; i < residuals.length; i++)
    residuals[i] = isPlain ? -result.residuals[i]! : -result.residuals[i]! / Math.sqrt(weights[i]!)
  const isKnown = options.sigma !== undefined && options.trust !== 'residuals'
  const spread = spreadOfFit(v, values, result, { residuals, isKnown, robust: options.robust ?? 'none' })
  return {
    values: [...values],
    ...spread,
    residuals,
    weights,
    squares: squaresOf(residuals),
    steps: result.steps,
    ended: result.ended,
  }
}

interface Found {
  readonly result: TrustResult
  readonly weights: Float64Array
}

/** The search itself; with a robust rule it is repeated with the weights the rule gives, until they stand. */
function search(
  model: FitModel,
  y: ArrayLike<number>,
  v: Variables,
  plain: Float64Array,
  start: Float64Array,
  options: ModelFitOptions,
): Found {
  const weights = new Float64Array(y.length).fill(1)
  const robust = options.robust ?? 'none'
  const go = (from: Float64Array): TrustResult => {
    const weigh = robust === 'none' ? plain : plain.map((w, i) => w * Math.sqrt(weights[i]!))
    const found = trustRegion(problemOf(model, y, v, weigh), from, options)
    if (found !== undefined) return found
    throw new FaultError({
      code: 'out-of-domain',
      name: 'law at the start',
      value: 'not finite',
      allowed: 'finite; begin from other values',
    })
  }
  let result = go(start)
  if (robust === 'none') return { result, weights }
  // the redescending rule begins from the end of the other one, else it may settle on a wrong group
  for (const rule of robust === 'tukey' ? (['huber', 'tukey'] as const) : (['huber'] as const))
    for (let round = 0; round < 40; round++) {
      const raw = result.residuals.map((r, i) => r / Math.sqrt(weights[i]!))
      const known = options.sigma !== undefined && options.trust !== 'residuals'
      const scale = known ? 1 : robustScale(raw, v.free.length)
      const next = raw.map((r) => robustWeight(rule, r / scale))
      const change = next.reduce((most, w, i) => Math.max(most, Math.abs(w - weights[i]!)), 0)
      weights.set(next.map((w) => Math.max(w, 1e-12)))
      if (change < 1e-9 || scale === 0) break
      result = go(result.variables)
      if (result.ended === 'stopped') break
    }
  return { result, weights }
}
