import { FaultError } from '#core/fault'
import { normalCdf } from '#core/numeric'
import type { AnyFormula, Quantity } from '#core/quantity'
import { blockSize } from './formula-rows.ts'
import {
  type CauseColumn,
  drawCauses,
  evaluateBlock,
  type SamplingPlan,
  Scratch,
  samplingPlan,
} from './sampling-plan.ts'

export interface ChanceOptions {
  readonly formulas: ReadonlyMap<string, AnyFormula>
  /** Most random trials. */
  readonly trials: number
  readonly seed: number
  /** Trials between two looks at whether they are enough, at most 2048. */
  readonly every?: number
  /** Whether the chance is known well enough, from its mean so far and the standard error of that mean. */
  readonly isEnough?: (mean: number, standardError: number) => boolean
}

const scratch = new Scratch()

/** Fewest trials a chance is taken from. */
const fewest = 100

/**
 * Chance that the true value of a quantity lies within limits, by random trials over its derivation.
 *
 * Where the value goes straight with one of its normal causes, that one is not drawn: for each trial of the others the
 * share of it that stays inside is worked out. A tenth of the trials then tell as much.
 *
 * @param q quantity; take its straight parts together first
 * @param low, high limits in its unit; infinite where there is none
 * @throws {FaultError} `unknown-formula`; `out-of-domain` where fewer than 100 trials are asked for or give a number
 * @see JCGM 106:2012, 7.1; Hammersley and Handscomb, Monte Carlo Methods (1964), 6.3, conditional sampling
 */
export function chanceInside(q: Quantity, low: number, high: number, options: ChanceOptions): number {
  const { trials, seed, formulas, every = blockSize, isEnough } = options
  requireEnough('count of trials', trials)
  const size = Math.min(blockSize, trials, every)
  const plan = samplingPlan(q, formulas, seed, { scratch, size })
  const shares = shareTaker(plan, low, high)
  const column = new Float64Array(size)
  const sum = { n: 0, mean: 0, squares: 0 }
  for (let done = 0; done < trials; done += size) {
    drawCauses(plan)
    shares(column)
    const count = Math.min(size, trials - done)
    for (let i = 0; i < count; i++) add(sum, column[i]!)
    if (sum.n >= fewest && isEnough?.(sum.mean, standardError(sum)) === true) break
  }
  requireEnough('count of trials that gave a number', sum.n)
  return sum.mean
}

interface Sum {
  n: number
  mean: number
  squares: number
}

/** Welford's running mean and sum of squares; what is no number is left out. */
function add(sum: Sum, x: number): void {
  if (x - x !== 0) return
  sum.n++
  const from = x - sum.mean
  sum.mean += from / sum.n
  sum.squares += from * (x - sum.mean)
}

/** Never below what one trial more or less would do: a run without a single miss is not sure of none. */
const standardError = (sum: Sum): number => Math.max(Math.sqrt(sum.squares / (sum.n - 1) / sum.n), 1 / sum.n)

function requireEnough(name: string, count: number): void {
  if (!(count >= fewest && Number.isInteger(count)))
    throw new FaultError({ code: 'out-of-domain', name, value: count, allowed: `a whole number of at least ${fewest}` })
}

type Shares = (into: Float64Array) => void

/** Fills in the share inside for each trial of the causes just drawn. */
function shareTaker(plan: SamplingPlan, low: number, high: number): Shares {
  const cause = straightCause(plan)
  return cause === undefined ? (into) => counted(plan, low, high, into) : sharesOver(plan, cause, low, high)
}

function counted(plan: SamplingPlan, low: number, high: number, into: Float64Array): void {
  evaluateBlock(plan)
  for (let i = 0; i < into.length; i++) {
    const v = plan.result[i]!
    into[i] = v - v !== 0 ? Number.NaN : v >= low && v <= high ? 1 : 0
  }
}

/** Moves one cause by its standard uncertainty either way; between and beyond the value goes straight. */
function sharesOver(plan: SamplingPlan, cause: CauseColumn, low: number, high: number): Shares {
  const below = new Float64Array(cause.column.length)
  return (into) => {
    resultAt(plan, cause, -1, below)
    resultAt(plan, cause, 1, into)
    for (let i = 0; i < into.length; i++) {
      const middle = (into[i]! + below[i]!) / 2
      const u = Math.abs(into[i]! - below[i]!) / 2
      into[i] = normalCdf((high - middle) / u) - normalCdf((low - middle) / u)
    }
  }
}

function resultAt(plan: SamplingPlan, cause: CauseColumn, errors: number, into: Float64Array): void {
  cause.column.fill(errors)
  evaluateBlock(plan)
  into.set(plan.result)
}

/** Bend of a cause within two standard uncertainties, as a share of its effect, below which it counts as straight. */
const straightEnough = 0.01

/** The normal cause that moves the value most among those it goes straight with, all others at rest. */
function straightCause(plan: SamplingPlan): CauseColumn | undefined {
  // one trial is enough: the first of each column
  for (const c of plan.causes) c.column[0] = 0
  const at = (c: CauseColumn, errors: number): number => {
    c.column[0] = errors
    evaluateBlock(plan, 1)
    c.column[0] = 0
    return plan.result[0]!
  }
  let best: CauseColumn | undefined
  let most = 0
  for (const c of plan.causes.filter(isFreeNormal(plan))) {
    const [below, middle, above] = [at(c, -2), at(c, 0), at(c, 2)]
    const effect = Math.abs(above - below)
    if (!(effect > most && Math.abs(above + below - 2 * middle) <= straightEnough * effect)) continue
    best = c
    most = effect
  }
  return best
}

const isFreeNormal =
  (plan: SamplingPlan) =>
  (c: CauseColumn): boolean =>
    c.distribution === 'normal' && !plan.mixture.columns.includes(c.column)
