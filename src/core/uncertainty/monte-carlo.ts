import { FaultError } from '#core/fault'
import type { AnyFormula, Quantity } from '#core/quantity'
import { blockSize } from './formula-rows.ts'
import { sampleBlock, samplingPlan } from './sampling-plan.ts'
import { sortedTails } from './tails.ts'

export interface MonteCarloOptions {
  /** Every formula the derivation may name. */
  readonly formulas: ReadonlyMap<string, AnyFormula>
  /** How many; by default `monteCarloDefaults.trials`. */
  readonly trials?: number
  /** Start of the random numbers; the same seed gives the same result. */
  readonly seed?: number
  /** Called now and then with the trials done. */
  readonly onProgress?: (done: number, trials: number) => void
  /** Asked now and then; the run ends early where it says yes. */
  readonly shouldStop?: () => boolean
}

export const monteCarloDefaults = { trials: 200_000, seed: 1 } as const

/** What random trials of a derivation came to. */
export interface MonteCarlo {
  readonly mean: number
  readonly standardUncertainty: number
  /** Cuts off 2.5 % of the trials on either side. */
  readonly symmetric95: readonly [low: number, high: number]
  /** The narrowest interval that holds 95 % of the trials. */
  readonly shortest95: readonly [low: number, high: number]
  /** Trials that gave a number; the results are from these. */
  readonly trials: number
  /** Trials in which the formula gave no finite number, as where a divisor came out as zero. */
  readonly failures: number
  readonly seed: number
  /** Whether the run was ended early. */
  readonly stopped: boolean
}

/** How many blocks pass between two reports of progress. */
const reportEvery = 16

/**
 * Propagates distributions by random trials over the derivation of a quantity: each cause is drawn once per trial, from
 * its own distribution, and moves every reading it belongs to; all formulas are evaluated as they are. Correlated causes
 * are jointly normal. A cause keeps its errors from one quantity to the next under the same seed.
 *
 * @param q a derived quantity (or a leaf)
 * @throws {FaultError} `unknown-formula`; `out-of-domain` where fewer than 100 trials are asked for or give a number, or
 *   where correlations cannot hold together
 * @see JCGM 101:2008, clause 7
 */
export function monteCarlo(q: Quantity, options: MonteCarloOptions): MonteCarlo {
  const { trials, seed, onProgress, shouldStop } = { ...monteCarloDefaults, ...options }
  requireEnough('count of trials', trials)
  const plan = samplingPlan(q, options.formulas, seed)
  const values = new Float64Array(trials)
  let done = 0
  let kept = 0
  let stopped = false
  for (let block = 0; done < trials && !stopped; block++) {
    sampleBlock(plan)
    const count = Math.min(blockSize, trials - done)
    kept = keepFinite(plan.result, count, values, kept)
    done += count
    if (block % reportEvery !== reportEvery - 1) continue
    onProgress?.(done, trials)
    stopped = done < trials && shouldStop?.() === true
  }
  if (!stopped) onProgress?.(trials, trials)
  requireEnough('count of trials that gave a number', kept)
  return { ...summarizeTrials(values.subarray(0, kept)), trials: kept, failures: done - kept, seed, stopped }
}

const fewest = 100

function requireEnough(name: string, count: number): void {
  if (!(count >= fewest && Number.isInteger(count)))
    throw new FaultError({ code: 'out-of-domain', name, value: count, allowed: `a whole number of at least ${fewest}` })
}

function keepFinite(from: Float64Array, count: number, into: Float64Array, start: number): number {
  let n = start
  for (let i = 0; i < count; i++) {
    const v = from[i]!
    into[n] = v
    // v - v is 0 for a finite number and NaN for all others
    if (v - v === 0) n++
  }
  return n
}

type Summary = Pick<MonteCarlo, 'mean' | 'standardUncertainty' | 'symmetric95' | 'shortest95'>

function summarizeTrials(values: Float64Array): Summary {
  const mean = meanOf(values)
  return { mean, standardUncertainty: deviationOf(values, mean), ...intervals(values) }
}

function meanOf(values: Float64Array): number {
  // about the first value, so that a small spread about a large number keeps its digits
  const about = values[0]!
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i]! - about
  return about + sum / values.length
}

function deviationOf(values: Float64Array, mean: number): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += (values[i]! - mean) ** 2
  return Math.sqrt(sum / (values.length - 1))
}

/** Coverage intervals by counting (JCGM 101:2008, 7.7). */
function intervals(values: Float64Array): Pick<Summary, 'symmetric95' | 'shortest95'> {
  const inside = Math.floor(0.95 * values.length + 0.5)
  const outside = values.length - inside
  const { low, high } = sortedTails(values, outside)
  const middle = Math.floor((outside + 1) / 2)
  let best = 0
  for (let r = 0; r < outside; r++) if (high[r]! - low[r]! < high[best]! - low[best]!) best = r
  return {
    symmetric95: [low[middle - 1]!, high[middle - 1]!],
    shortest95: [low[best]!, high[best]!],
  }
}
