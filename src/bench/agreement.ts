import { results, runs } from '#book'
import {
  type CompareOptions,
  type Comparison,
  compareTesters,
  type Interchange,
  interchange,
  type PairedTable,
  type Purpose,
  readPairedTable,
} from '#core/upkeep'
import { comparisonSheet, type Sheet } from '#report/sheet'
import { type Bench, bookOf } from './bench.ts'

/** How two testers are compared, and what for. */
export interface CompareWishes {
  readonly options?: Partial<CompareOptions>
  /** What they are to be interchangeable for, once the unit is known. */
  readonly purpose: (unit: Comparison['unit']) => Purpose
}

/** Two testers compared, with the sheet that says it. */
export interface ComparedTesters {
  readonly comparison: Comparison
  readonly answer: Interchange
  readonly notes: readonly string[]
  readonly sheet: Sheet
}

/** Compares two testers by a table of parts read on both. @throws {FaultError} every fault of the table */
export const compareTestersFile = (
  input: { readonly text: string; readonly file: string },
  wishes: CompareWishes,
): ComparedTesters => comparedBy(readPairedTable(input.text, input.file), wishes)

/** Two testers of the book, and what was read of the same parts on both. */
export interface KeptPair {
  /** Ids of the testers. */
  readonly testers: readonly [string, string]
  /** Letter symbol: h_FE, I_CEO. */
  readonly symbol: string
}

/**
 * Compares two testers by the parts of the book that were read on both: each run gives one reading, the first of its
 * symbol, brought to 25 degC where that is known.
 *
 * @throws {FaultError} `out-of-domain` where fewer than three parts were read on both
 */
export const compareTestersKept = async (
  bench: Bench,
  pair: KeptPair,
  wishes: CompareWishes,
): Promise<ComparedTesters> => comparedBy(await pairedOfBook(bench, pair), wishes)

/** Parts of the book that were read on both of two testers, as a table of them would hold. */
export async function pairedOfBook(bench: Bench, { testers, symbol }: KeptPair): Promise<PairedTable> {
  const [first, second] = await Promise.all(testers.map((t) => keptOf(bench, t, symbol)))
  const parts = [...first!.values].flatMap(([part, values]) => {
    const other = second!.values.get(part)
    return other === undefined ? [] : [{ part, first: values, second: other }]
  })
  const unit = first!.unit ?? second!.unit ?? '1'
  const notes = [
    `Each run gives one reading of ${symbol}, brought to 25 °C where that is known; parts read on one tester only are left out.`,
  ]
  return { names: testers, unit, parts, notes }
}

/** Readings of a symbol on a tester, by part; one for each run. */
async function keptOf(bench: Bench, tester: string, symbol: string) {
  const book = bookOf(bench)
  const values = new Map<string, number[]>()
  let unit: Comparison['unit'] | undefined
  for (const { id } of await runs(book, { tester }))
    for (const { result } of await results(book, { run: id })) {
      const own = result.parameters.filter((p) => p.symbol === symbol)
      const found = own.find((p) => p.standing !== 'measured') ?? own[0]
      if (found === undefined) continue
      unit ??= found.quantity.unit
      const before = values.get(result.part)
      if (before === undefined) values.set(result.part, [found.quantity.value])
      else before.push(found.quantity.value)
    }
  return { values, unit }
}

function comparedBy(table: PairedTable, { options, purpose }: CompareWishes): ComparedTesters {
  const comparison = compareTesters(table.names, table.unit, table.parts, options)
  const answer = interchange(comparison, purpose(table.unit))
  return { comparison, answer, notes: table.notes, sheet: comparisonSheet(comparison, answer, table.notes) }
}

/** The document of a comparison, for scripts. */
export interface AgreementDocument extends Omit<Comparison, 'limitsAt' | 'repeats'> {
  readonly format: 'germane/agreement/1'
  readonly repeats: readonly { readonly tester: string; readonly sd: number; readonly dof: number }[]
  readonly answer: Interchange
  readonly notes: readonly string[]
}

export function agreementDocument({ comparison, answer, notes }: ComparedTesters): AgreementDocument {
  const { limitsAt: _, repeats, ...rest } = comparison
  return {
    format: 'germane/agreement/1',
    ...rest,
    repeats: repeats.flatMap((r, i) => (r === undefined ? [] : [{ tester: comparison.names[i]!, ...r }])),
    answer,
    notes,
  }
}
