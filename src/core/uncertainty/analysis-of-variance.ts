import { FaultError } from '#core/fault'
import { fisherCdf, summarize } from '#core/numeric'
import { type KnownSpread, pooledSpread } from './readings.ts'

/** One group of readings, as of one day or one part. */
export interface Group {
  readonly count: number
  readonly mean: number
  readonly sd: number
}

/** Whether groups of readings differ by more than the readings within them. */
export interface AnalysisOfVariance {
  readonly mean: number
  /** Spread of one reading within its group. */
  readonly within: KnownSpread
  /** Spread of the group means. */
  readonly ofMeans: KnownSpread
  /** What the groups themselves add to the spread; 0 where they add nothing that can be seen. */
  readonly betweenSd: number
  /** Variance between groups over variance within. */
  readonly ratio: number
  /** Probability of so large a ratio where the groups do not differ. */
  readonly chance: number
  /** Uncertainty of the mean where the groups differ, and its degrees of freedom. */
  readonly ifGroupsDiffer: { readonly u: number; readonly dof: number }
  /** The same where all readings are alike. */
  readonly ifAlike: { readonly u: number; readonly dof: number }
}

/**
 * One-way analysis of variance of groups with equally many readings.
 *
 * @throws {FaultError} `out-of-domain` for fewer than two groups or readings in a group, or groups of unequal size
 * @see JCGM 100:2008, H.5
 */
export function analysisOfVariance(groups: readonly Group[]): AnalysisOfVariance {
  const count = groups[0]?.count ?? 0
  requireShape(groups, count)
  const means = summarize(groups.map((g) => g.mean))
  const within = pooledSpread(groups.map((g) => ({ sd: g.sd, dof: g.count - 1 })))
  const ofMeans = { sd: means.sd, dof: groups.length - 1 }
  const between = count * ofMeans.sd ** 2
  const inside = within.sd ** 2
  const all = groups.length * count
  const pooled = (ofMeans.dof * between + within.dof * inside) / (all - 1)
  const ratio = between / inside
  return {
    mean: means.mean,
    within,
    ofMeans,
    betweenSd: Math.sqrt(Math.max(0, (between - inside) / count)),
    ratio,
    chance: 1 - fisherCdf(ratio, ofMeans.dof, within.dof),
    ifGroupsDiffer: { u: ofMeans.sd / Math.sqrt(groups.length), dof: ofMeans.dof },
    ifAlike: { u: Math.sqrt(pooled / all), dof: all - 1 },
  }
}

/** The groups of an analysis of variance from the readings themselves. */
export const groupsOf = (readings: readonly (readonly number[])[]): readonly Group[] =>
  readings.map((r) => summarize(r))

function requireShape(groups: readonly Group[], count: number): void {
  const refuse = (name: string, value: number, allowed: string): never => {
    throw new FaultError({ code: 'out-of-domain', name, value, allowed })
  }
  if (groups.length < 2) refuse('count of groups', groups.length, 'at least 2')
  if (count < 2) refuse('count of readings in a group', count, 'at least 2')
  for (const g of groups)
    if (g.count !== count) refuse('count of readings in a group', g.count, `${count}, as in the first`)
}
