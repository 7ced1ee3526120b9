import { type Health, healthOf } from '#core/upkeep'
import { healthSheet, type Sheet, steadinessSentence } from '#report/sheet'
import type { Bench, KnownTester } from './bench.ts'
import { type KeptStandard, steadinessOfKept } from './steadiness.ts'

/** The health of a tester, with the sheet that says it. */
export interface Examined {
  readonly health: Health
  readonly sheet: Sheet
}

/**
 * What a tester is worth today: by its calibrations, and by check standards of the book where they are named.
 *
 * @throws {FaultError} a check standard that was not read on it, or too seldom
 */
export async function examine(
  bench: Bench,
  { tester }: KnownTester,
  standards: readonly Omit<KeptStandard, 'tester'>[],
): Promise<Examined> {
  const seen = []
  for (const s of standards) {
    const found = await steadinessOfKept(bench, { ...s, tester: tester.id }, { bounds: () => ({}) })
    seen.push(...found.standards.map((steadiness) => ({ steadiness, say: steadinessSentence(steadiness) })))
  }
  const health = healthOf(tester, bench.now().slice(0, 10), seen)
  return { health, sheet: healthSheet(health) }
}

/** The document of a tester's health, for scripts. */
export const healthDocument = ({ health }: Examined) => ({ format: 'germane/health/1' as const, ...health })
