import { checkStandards, foundRecords } from '#book'
import { foundState, type Health, type HealthEvidence, healthOf, type StandardHealth } from '#core/upkeep'
import { healthSheet, type Sheet, standardHealth, steadinessSentence } from '#report/sheet'
import type { Bench, KnownTester } from './bench.ts'
import { type KeptStandard, standardReadings, steadinessOfKept } from './steadiness.ts'

/** The health of a tester, with the sheet that says it. */
export interface Examined {
  readonly health: Health
  readonly sheet: Sheet
}

/**
 * What a tester is worth today: by its calibrations, by its parts as the book keeps them, and by its check standards:
 * those named, else those the book names.
 *
 * @throws {FaultError} a check standard named that was not read on it, or too seldom
 */
export async function examine(
  bench: Bench,
  known: KnownTester,
  standards: readonly Omit<KeptStandard, 'tester'>[] = [],
): Promise<Examined> {
  const { tester } = known
  const on = bench.now().slice(0, 10)
  const kept = await evidenceOf(bench, known, on)
  const named = []
  for (const s of standards) {
    const found = await steadinessOfKept(bench, { ...s, tester: tester.id }, { bounds: () => ({}) })
    named.push(...found.standards.map((one) => ({ part: one.part, word: one.word, say: steadinessSentence(one) })))
  }
  const health = healthOf(tester, on, named.length === 0 ? kept : { ...kept, standards: named })
  return { health, sheet: healthSheet(health) }
}

/** What the book knows of a tester beside its description. */
async function evidenceOf(bench: Bench, { tester }: KnownTester, on: string): Promise<HealthEvidence> {
  const { book } = bench
  if (book === undefined) return {}
  const standards: StandardHealth[] = []
  for (const named of await checkStandards(book, tester.id)) {
    const read = await standardReadings(bench, named)
    if (read !== undefined) standards.push(standardHealth(read, named))
  }
  return { standards, found: foundState(tester, await foundRecords(book, tester.id), on) }
}

/** The document of a tester's health, for scripts. */
export const healthDocument = ({ health }: Examined) => ({ format: 'germane/health/1' as const, ...health })
