import type { Verdict } from '#core/judge'
import type { JudgedPart } from './judged.ts'
import type { LimitRow } from './model.ts'
import { bySymbol, parameterName } from './trade.ts'
import { boundsOf, conditionList } from './wording.ts'

/** Every limit that something was held against, once, with where it comes from. */
export function limitRows(parts: readonly JudgedPart[]): readonly LimitRow[] {
  const rows = new Map<string, LimitRow>()
  for (const part of parts) {
    const type = part.result.type ?? 'unknown type'
    for (const v of part.parameters.flatMap((p) => p.verdicts)) {
      const key = JSON.stringify([type, v.limit.symbol, v.limit.min, v.limit.max, v.limit.at, v.source])
      if (!rows.has(key)) rows.set(key, limitRow(v, type))
    }
  }
  return [...rows.values()].sort((a, b) => (a.type < b.type ? -1 : a.type > b.type ? 1 : bySymbol(a.symbol, b.symbol)))
}

const limitRow = (v: Verdict, type: string): LimitRow => ({
  type,
  symbol: v.limit.symbol,
  name: parameterName(v.limit.symbol),
  bounds: boundsOf(v.limit),
  conditions: conditionList(v.limit.at),
  ...(v.limit.note === undefined ? {} : { note: v.limit.note }),
  source: v.source,
})
