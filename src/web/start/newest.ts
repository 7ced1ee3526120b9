import type { DrawerBlock, WordColumn } from '#api'
import type { Outcome } from '#report/typeset'

/** A part as the start shows it. */
export interface NewestPart {
  readonly tag: string
  readonly type?: string
  readonly lot?: string
  readonly place?: string
  readonly outcome: Outcome
  readonly gain?: { readonly symbol: string; readonly value: number; readonly u: number }
  readonly run: number
}

const word = (column: WordColumn, row: number): string | undefined => column.words[column.at[row] ?? -1]

function outcomeOf(b: DrawerBlock, row: number): Outcome {
  const state = word(b.states, row)
  if (state === 'short' || state === 'open') return state
  return (word(b.verdicts, row) as Outcome | undefined) ?? 'not judged'
}

/** Gain with its leakage taken out, as the drawer shows it first, else as read. */
const gainSymbols = ['h_FE0', 'h_FE'] as const

function gainAt(b: DrawerBlock, row: number): NewestPart['gain'] {
  for (const symbol of gainSymbols) {
    const [value, u] = [b.symbols[symbol]?.value[row], b.symbols[symbol]?.u[row]]
    if (typeof value === 'number' && typeof u === 'number') return { symbol, value, u }
  }
  return undefined
}

function partAt(b: DrawerBlock, row: number): NewestPart {
  const gain = gainAt(b, row)
  const [type, lot, place] = [word(b.types, row), word(b.lots, row), word(b.places, row)]
  return {
    tag: b.tags[row]!,
    ...(type === undefined ? {} : { type }),
    ...(lot === undefined ? {} : { lot }),
    ...(place === undefined ? {} : { place }),
    outcome: outcomeOf(b, row),
    ...(gain === undefined ? {} : { gain }),
    run: b.runs[row] ?? 0,
  }
}

/** The parts that came last, newest first. */
export function newestParts(blocks: readonly DrawerBlock[], most: number): readonly NewestPart[] {
  const last: NewestPart[] = []
  for (const block of [...blocks].reverse())
    for (let row = block.tags.length - 1; row >= 0 && last.length < most; row--) last.push(partAt(block, row))
  return last
}

/** How many parts came to each outcome. */
export function outcomeCounts(blocks: readonly DrawerBlock[]): ReadonlyMap<Outcome, number> {
  const counts = new Map<Outcome, number>()
  for (const b of blocks)
    for (let row = 0; row < b.tags.length; row++) {
      const o = outcomeOf(b, row)
      counts.set(o, (counts.get(o) ?? 0) + 1)
    }
  return counts
}
