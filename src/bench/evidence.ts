import { foundRecords, type Outcome } from '#book'
import { type Against, asFoundCode, type Parameter } from '#core/reduce'
import type { Tester } from '#core/tester'
import { foundAgainst } from '#core/upkeep'
import type { Bench } from './bench.ts'

/** Whether the book has parts as found of a tester. */
export const hasEvidence = async ({ book }: Bench, tester: string): Promise<boolean> =>
  book !== undefined && (await foundRecords(book, tester)).length > 0

/** What the book knows against readings on a tester by its parts as found; nothing where none are kept. */
export async function evidenceAgainst(bench: Bench, tester: Tester): Promise<{ readonly against?: Against }> {
  const records = bench.book === undefined ? [] : await foundRecords(bench.book, tester.id)
  if (records.length === 0) return {}
  const newest = bench.ownTesters.find((t) => t.tester.id === tester.id)?.tester ?? tester
  return { against: foundAgainst(tester, records, newest.calibrations ?? []) }
}

/**
 * Outcomes as the book keeps them: by readings and descriptions alone. What parts as found say against them is worked out
 * where they are shown, so that nothing that was kept changes by what is measured later, and what is said is never old.
 */
export const withoutEvidence = (outcomes: readonly Outcome[]): readonly Outcome[] =>
  outcomes.map((o) =>
    o.result.parameters.some(isDoubted)
      ? { ...o, result: { ...o.result, parameters: o.result.parameters.map(bare) } }
      : o,
  )

const isDoubted = (p: Parameter): boolean => p.doubts.some((d) => d.code === asFoundCode)

const bare = (p: Parameter): Parameter =>
  isDoubted(p) ? { ...p, doubts: p.doubts.filter((d) => d.code !== asFoundCode) } : p
