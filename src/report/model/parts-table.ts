import type { Family, PartType } from '#core/device'
import { intervalOf } from './interval.ts'
import { gravest, type JudgedParameter, type JudgedPart, type SectionIds } from './judged.ts'
import type { Cell, PartRow, PartTable } from './model.ts'
import { bySymbol, familyHeading, parameterName } from './trade.ts'
import { counted } from './wording.ts'

/** A table carries this many parameters at most; the sections carry all. */
export const columnsAtMost = 5

/** A table for each family of parts, the parts in the order they came. */
export function partTables(
  parts: readonly JudgedPart[],
  types: Readonly<Record<string, PartType>>,
  sectionIds: SectionIds,
): readonly PartTable[] {
  const groups = new Map<Family | undefined, JudgedPart[]>()
  for (const part of parts) {
    const type = part.result.type
    const family = type === undefined ? undefined : types[type]?.family
    const list = groups.get(family)
    if (list === undefined) groups.set(family, [part])
    else list.push(part)
  }
  return [...groups].map(([family, list]) => table(family, list, sectionIds))
}

function table(family: Family | undefined, parts: readonly JudgedPart[], sectionIds: SectionIds): PartTable {
  const symbols = keySymbols(parts)
  return {
    caption: `${familyHeading(family)}: ${counted(parts.length, 'part')}`,
    columns: symbols.map((symbol) => ({ symbol, name: parameterName(symbol) })),
    rows: parts.map((p) => partRow(p, symbols, sectionIds.get(p))),
  }
}

/** What people look for first; anything else gets a column only where it was judged. */
const looked = 'h_FE h_FE0 I_CEO I_CBO I_CES I_EBO V_BE V_CE(sat) V_F I_R V_Z I_DSS V_GS(off)'.split(' ')

/** The symbols worth a column: judged ones first, then those most parts have. */
function keySymbols(parts: readonly JudgedPart[]): readonly string[] {
  const weight = new Map<string, number>()
  for (const part of parts)
    for (const { parameter, verdicts } of part.parameters) {
      if (verdicts.length === 0 && !looked.includes(parameter.symbol)) continue
      const judged = verdicts.length > 0 ? parts.length : 0
      weight.set(parameter.symbol, (weight.get(parameter.symbol) ?? 0) + 1 + judged)
    }
  const heaviest = [...weight].sort((a, b) => b[1] - a[1] || bySymbol(a[0], b[0])).slice(0, columnsAtMost)
  return heaviest.map(([symbol]) => symbol).sort(bySymbol)
}

function partRow(part: JudgedPart, symbols: readonly string[], section: string | undefined): PartRow {
  return {
    tag: part.result.part,
    ...(section === undefined ? {} : { section }),
    type: part.result.type ?? 'unknown',
    cells: symbols.map((s) => cell(part.parameters.filter((p) => p.parameter.symbol === s))),
    outcome: part.outcome,
    because: part.because,
  }
}

/** Of several values of one symbol the table shows the one that decided, else the one as measured. */
function cell(named: readonly JudgedParameter[]): Cell | null {
  const judged = named.filter((p) => p.verdicts.length > 0)
  const outcome = gravest(judged.flatMap((p) => p.verdicts.map((v) => v.verdict)))
  const shown =
    judged.find((p) => p.verdicts.some((v) => v.verdict === outcome)) ??
    named.find((p) => p.parameter.standing === 'measured') ??
    named[0]
  if (shown === undefined) return null
  const { figure } = intervalOf(shown.parameter.quantity)
  return judged.length === 0 ? { figure } : { figure, outcome }
}
