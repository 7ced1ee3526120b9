import { FaultError } from '#core/fault'
import { type LinearFit, leastSquares, studentTail, summarize } from '#core/numeric'
import type { Unit } from '#core/quantity'
import { type KnownSpread, pooledSpread } from '#core/uncertainty'
import { type Estimate, estimate } from './estimate.ts'

/** One part read on two testers; several readings where it was read again. */
export interface PairedPart {
  readonly part: string
  readonly first: readonly number[]
  readonly second: readonly number[]
}

export interface CompareOptions {
  /** Limits of agreement lie so many standard deviations from the bias; 1.96 holds 95 % of normal differences. */
  readonly factor: number
  /**
   * `difference`: first less second. `ratio`: first over second, by logarithms, where differences grow with the value.
   */
  readonly scale: 'difference' | 'ratio'
}

export const compareDefaults = { factor: 1.96, scale: 'difference' } as const satisfies CompareOptions

/** A part in the plot of differences; both on the scale asked for, a ratio as such. */
export interface ComparedPart {
  readonly part: string
  readonly mean: number
  readonly difference: number
  readonly first: number
  readonly second: number
}

/** A straight line of the differences, or of their sizes, against the mean. */
export interface Trend {
  readonly slope: Estimate
  /** Probability of so steep a line where there is none. */
  readonly chance: number
  /** Whether it is taken as there: a chance below 5 %. */
  readonly isSeen: boolean
}

/** How far two testers agree. */
export interface Comparison {
  readonly names: readonly [string, string]
  readonly unit: Unit
  readonly scale: CompareOptions['scale']
  readonly factor: number
  readonly count: number
  readonly parts: readonly ComparedPart[]
  /** Mean difference, first less second; or mean ratio. */
  readonly bias: Estimate
  /** Standard deviation of the difference of single readings; on the ratio scale of its natural logarithm. */
  readonly sd: number
  readonly limits: { readonly lower: Estimate; readonly upper: Estimate }
  /** Whether the difference itself grows with the value. */
  readonly proportional: Trend
  /** Whether the scatter of the differences grows with the value. */
  readonly widening: Trend
  /** Spread of a tester's own readings of one part, where they were repeated; on the scale of `sd`. */
  readonly repeats: readonly [KnownSpread | undefined, KnownSpread | undefined]
  /** Limits of agreement where the parts have a given mean: sloped where the difference is proportional. */
  readonly limitsAt: (mean: number) => readonly [low: number, high: number]
}

/** Fewer parts than this say nothing about a spread. */
const leastParts = 3

/**
 * Bias of one tester against another and the limits within which 95 % of their differences lie, with 95 % intervals.
 *
 * The uncertainty of a limit is sqrt(3/n) times the standard deviation, as published; with few parts it is a rough
 * figure. Repeated readings of a part are averaged, and the standard deviation is brought back to single readings.
 *
 * @throws {FaultError} `out-of-domain` for fewer than three parts, parts without a reading on both, or values of 0 and
 *   below on the ratio scale
 * @see J. M. Bland and D. G. Altman, Statistical methods for assessing agreement between two methods of clinical
 *   measurement, Lancet 1986; i: 307-310; the same, Measuring agreement in method comparison studies, Statistical
 *   Methods in Medical Research 8 (1999) 135-160, sections 3.2 (slopes) and 5 (repeats)
 */
export function compareTesters(
  names: readonly [string, string],
  unit: Unit,
  parts: readonly PairedPart[],
  options: Partial<CompareOptions> = {},
): Comparison {
  const { factor, scale } = { ...compareDefaults, ...options }
  requireParts(parts, names, scale)
  const pairs = parts.map((p) => (scale === 'ratio' ? logarithms(p) : p))
  const means = pairs.map((p) => [meanOf(p.first), meanOf(p.second)] as const)
  const difference = means.map(([a, b]) => a - b)
  const level = means.map(([a, b]) => (a + b) / 2)
  const { mean, sd: sdOfMeans, count } = summarize(difference)
  const repeats = [withinSpread(pairs.map((p) => p.first)), withinSpread(pairs.map((p) => p.second))] as const
  const sd = Math.sqrt(sdOfMeans ** 2 + lostByMeans(pairs, repeats))
  const dof = count - 1
  const limit = (side: -1 | 1): Estimate => estimate(mean + side * factor * sd, sd * Math.sqrt(3 / count), dof)
  const line = leastSquares([level.map(() => 1), level], difference)
  const proportional = trendOf(line)
  const back = scale === 'ratio' ? expOf : (e: Estimate): Estimate => e
  const shown = scale === 'ratio' ? Math.exp : (x: number): number => x
  return {
    names,
    unit,
    scale,
    factor,
    count,
    parts: parts.map((p, i) => ({
      part: p.part,
      mean: shown(level[i]!),
      difference: shown(difference[i]!),
      first: meanOf(p.first),
      second: meanOf(p.second),
    })),
    bias: back(estimate(mean, sdOfMeans / Math.sqrt(count), dof)),
    sd,
    limits: { lower: back(limit(-1)), upper: back(limit(1)) },
    proportional,
    widening: trendOf(leastSquares([level.map(() => 1), level], line.residuals.map(Math.abs))),
    repeats,
    limitsAt: (at) => {
      const x = scale === 'ratio' ? Math.log(at) : at
      const middle = proportional.isSeen ? line.coefficients[0]! + line.coefficients[1]! * x : mean
      const half = factor * (proportional.isSeen ? line.residualSd : sd)
      return [shown(middle - half), shown(middle + half)]
    },
  }
}

const meanOf = (values: readonly number[]): number => summarize(values).mean

const logarithms = (p: PairedPart): PairedPart => ({
  part: p.part,
  first: p.first.map(Math.log),
  second: p.second.map(Math.log),
})

/** A logarithm and its interval as a ratio; `u` stays that of the logarithm. */
const expOf = (e: Estimate): Estimate => ({
  value: Math.exp(e.value),
  u: e.u,
  low: Math.exp(e.low),
  high: Math.exp(e.high),
})

function requireParts(
  parts: readonly PairedPart[],
  names: readonly [string, string],
  scale: CompareOptions['scale'],
): void {
  const refuse = (name: string, value: number, allowed: string): never => {
    throw new FaultError({ code: 'out-of-domain', name, value, allowed })
  }
  if (parts.length < leastParts)
    refuse('count of parts read on both testers', parts.length, `at least ${leastParts}; better 20 or more`)
  for (const p of parts)
    for (const [i, values] of [p.first, p.second].entries()) {
      if (values.length === 0) refuse(`count of readings of ${p.part} on ${names[i]}`, 0, 'at least 1')
      const low = values.find((v) => v <= 0)
      if (scale === 'ratio' && low !== undefined)
        refuse(`reading of ${p.part} on ${names[i]}`, low, 'above 0 where ratios are asked for')
    }
  if (new Set(parts.map((p) => meanOf(p.first) + meanOf(p.second))).size === 1)
    refuse('span of the parts', 0, 'above 0: parts of different values tell how far testers agree')
}

/** Spread of readings within their part; undefined where none was repeated. */
function withinSpread(series: readonly (readonly number[])[]): KnownSpread | undefined {
  const repeated = series.filter((s) => s.length > 1)
  if (repeated.length === 0) return undefined
  return pooledSpread(repeated.map((s) => ({ sd: summarize(s).sd, dof: s.length - 1 })))
}

/** Variance that averaging of repeats took away from the differences (Bland and Altman 1999, section 5.1). */
function lostByMeans(pairs: readonly PairedPart[], repeats: Comparison['repeats']): number {
  const lost = (spread: KnownSpread | undefined, counts: readonly number[]): number =>
    spread === undefined ? 0 : spread.sd ** 2 * meanOf(counts.map((m) => 1 - 1 / m))
  return (
    lost(
      repeats[0],
      pairs.map((p) => p.first.length),
    ) +
    lost(
      repeats[1],
      pairs.map((p) => p.second.length),
    )
  )
}

function trendOf(fit: LinearFit): Trend {
  const slope = estimate(fit.coefficients[1]!, fit.sd[1]!, fit.dof)
  const chance = slope.u === 0 ? (slope.value === 0 ? 1 : 0) : 2 * studentTail(Math.abs(slope.value / slope.u), fit.dof)
  return { slope, chance, isSeen: chance < 0.05 }
}
