import { FaultError } from '#core/fault'
import { summarize } from '#core/numeric'
import { chartConstants, rangeConstants } from './chart-constants.ts'
import { type RuleSet, signalsOf } from './chart-rules.ts'

/** Readings of a check standard taken together. */
export interface Subgroup {
  /** Date or time, ISO. */
  readonly at: string
  readonly values: readonly number[]
}

export interface ControlOptions {
  readonly rules: RuleSet
  /** What tells the spread within a group: its range, or its standard deviation (for groups of more than ten). */
  readonly spread: 'range' | 'sd'
  /** The limits come from so many first groups; left out, from all. */
  readonly baseline?: number
  /** Weight of the newest point in a moving average; left out, none is drawn. */
  readonly weight?: number
}

export const controlDefaults = { rules: 'western-electric', spread: 'range' } as const satisfies ControlOptions

export interface ControlPoint {
  readonly at: string
  readonly count: number
  readonly mean: number
  /** Range or standard deviation of the group; of single readings the step from the one before, none for the first. */
  readonly spread?: number
  /** Control limits of the mean, and upper and lower of the spread. */
  readonly limits: readonly [low: number, high: number]
  readonly spreadLimits: readonly [low: number, high: number]
  /** Exponentially weighted moving average and its limits. */
  readonly average?: { readonly value: number; readonly low: number; readonly high: number }
}

/** A rule broken. */
export interface Signal {
  readonly at: string
  readonly rule: string
  readonly source: string
  readonly say: string
}

export interface ControlChart {
  readonly kind: 'individuals' | 'mean and range' | 'mean and standard deviation'
  readonly rules: RuleSet
  readonly centre: number
  /** Standard deviation of one reading, from the spread within groups or from step to step. */
  readonly sigma: number
  /** Groups the limits come from. */
  readonly baseline: number
  readonly points: readonly ControlPoint[]
  readonly signals: readonly Signal[]
}

/**
 * Control chart of a check standard: of single readings with the moving range, or of groups with range or standard
 * deviation. Limits are at three standard deviations and follow the size of each group.
 *
 * @throws {FaultError} `out-of-domain` for fewer than three groups, or no spread at all
 * @see ISO 7870-2:2013; D. C. Montgomery, Introduction to Statistical Quality Control, chapters 6 and 9 (moving average)
 */
export function controlChart(groups: readonly Subgroup[], options: Partial<ControlOptions> = {}): ControlChart {
  const o: ControlOptions = { ...controlDefaults, ...options }
  const baseline = Math.min(o.baseline ?? groups.length, groups.length)
  requireAtLeast('count of groups the limits come from', baseline, 3)
  const sorted = [...groups].sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
  const kind = sorted.some((g) => g.values.length < 2)
    ? ('individuals' as const)
    : o.spread === 'range'
      ? ('mean and range' as const)
      : ('mean and standard deviation' as const)
  const means = sorted.map((g) => summarize(g.values).mean)
  // where a group holds one reading only, each mean counts as one
  const counts = sorted.map((g) => (kind === 'individuals' ? 1 : g.values.length))
  const spreads = kind === 'individuals' ? means.map((m, i) => stepTo(means, i, m)) : sorted.map((g) => spreadOf(g, o))
  const sigma = sigmaOf(kind, spreads.slice(0, baseline), counts)
  requireAtLeast('spread of the readings', sigma, Number.MIN_VALUE)
  const weights = counts.slice(0, baseline)
  const centre = weights.reduce((sum, n, i) => sum + n * means[i]!, 0) / weights.reduce((a, b) => a + b, 0)
  const points = sorted.map((g, i): ControlPoint => {
    const half = (3 * sigma) / Math.sqrt(counts[i]!)
    const spread = spreads[i]
    return {
      at: g.at,
      count: g.values.length,
      mean: means[i]!,
      ...(spread === undefined ? {} : { spread }),
      limits: [centre - half, centre + half],
      spreadLimits: spreadLimits(kind, counts[i]!, sigma),
    }
  })
  const z = points.map((p, i) => ((p.mean - centre) * Math.sqrt(counts[i]!)) / sigma)
  return {
    kind,
    rules: o.rules,
    centre,
    sigma,
    baseline,
    points: o.weight === undefined ? points : withAverages(points, counts, centre, sigma, o.weight),
    signals: [...meanSignals(points, z, o.rules), ...spreadSignals(points)].sort(
      (a, b) => Date.parse(a.at) - Date.parse(b.at),
    ),
  }
}

function requireAtLeast(name: string, value: number, least: number): void {
  if (!(value >= least))
    throw new FaultError({
      code: 'out-of-domain',
      name,
      value,
      allowed: least < 1 ? 'above 0: read to a finer part of a division' : `at least ${least}`,
    })
}

const stepTo = (means: readonly number[], i: number, mean: number): number | undefined =>
  i === 0 ? undefined : Math.abs(mean - means[i - 1]!)

const spreadOf = ({ values }: Subgroup, o: ControlOptions): number =>
  o.spread === 'range' ? Math.max(...values) - Math.min(...values) : summarize(values).sd

/** Mean of the spreads, each brought to the standard deviation it stands for. */
function sigmaOf(
  kind: ControlChart['kind'],
  spreads: readonly (number | undefined)[],
  counts: readonly number[],
): number {
  const all = spreads.flatMap((s, i) => {
    if (s === undefined) return []
    if (kind === 'individuals') return [s / rangeConstants(2).d2]
    const { d2, c4 } = rangeConstants(counts[i]!)
    return [s / (kind === 'mean and range' ? d2 : c4)]
  })
  return all.length === 0 ? Number.NaN : summarize(all).mean
}

function spreadLimits(kind: ControlChart['kind'], count: number, sigma: number): readonly [number, number] {
  const c = chartConstants(kind === 'individuals' ? 2 : count)
  return kind === 'mean and standard deviation'
    ? [c.B3 * c.c4 * sigma, c.B4 * c.c4 * sigma]
    : [c.D3 * c.d2 * sigma, c.D4 * c.d2 * sigma]
}

const meanSignals = (points: readonly ControlPoint[], z: readonly number[], set: RuleSet): readonly Signal[] =>
  signalsOf(z, set).flatMap((rules, i) =>
    rules.map((r) => ({ at: points[i]!.at, rule: r.id, source: r.source, say: r.say })),
  )

const spreadSignals = (points: readonly ControlPoint[]): readonly Signal[] =>
  points
    .filter(({ spread, spreadLimits: [low, high] }) => spread !== undefined && (spread > high || spread < low))
    .map((p) => ({
      at: p.at,
      rule: 'spread',
      source: 'ISO 7870-2:2013',
      say: `readings taken together spread ${p.spread! > p.spreadLimits[1] ? 'more' : 'less'} than the limits allow`,
    }))

/** @see D. C. Montgomery, Introduction to Statistical Quality Control, 9.2; limits at three standard deviations */
function withAverages(
  points: readonly ControlPoint[],
  counts: readonly number[],
  centre: number,
  sigma: number,
  weight: number,
): readonly ControlPoint[] {
  let value = centre
  return points.map((p, i) => {
    value = weight * p.mean + (1 - weight) * value
    const share = (weight / (2 - weight)) * (1 - (1 - weight) ** (2 * (i + 1)))
    const half = 3 * sigma * Math.sqrt(share / counts[i]!)
    return { ...p, average: { value, low: centre - half, high: centre + half } }
  })
}
