import type { Conditions, GainRank, GainRanks, Limit, PartType } from './part-type.ts'

const sameConditions = (a: Conditions, b: Conditions): boolean => {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Conditions>
  return [...keys].every((k) => a[k] === b[k])
}

/**
 * A type narrowed to one of its gain ranks: BC548 with rank B is BC548B, whose h_FE at the rank's conditions has the
 * rank's limits. Everything else stays.
 */
export function withGainRank(t: PartType, rank: GainRank): PartType {
  const { gainRanks, gainGroups, ...rest } = t
  if (gainRanks === undefined) return t
  return {
    ...rest,
    type: `${t.type}${rank.suffix}`,
    limits: narrowed(t.limits, gainRanks, rank),
    gainGroups: `gain rank ${rank.suffix} of ${t.type}`,
  }
}

function narrowed(limits: readonly Limit[], ranks: GainRanks, rank: GainRank): readonly Limit[] {
  const limit: Limit = {
    symbol: ranks.symbol,
    min: rank.min,
    max: rank.max,
    unit: '1',
    at: ranks.at,
    note: `gain rank ${rank.suffix}`,
  }
  const index = limits.findIndex((l) => l.symbol === ranks.symbol && sameConditions(l.at, ranks.at))
  return index < 0 ? [limit, ...limits] : limits.with(index, limit)
}
