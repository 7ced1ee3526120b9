import { saveResults } from '#book'
import type { Reading } from '#core/tester'
import { type Bench, bookOf } from './bench.ts'
import { evidenceAgainst, withoutEvidence } from './evidence.ts'
import { importRun, type KeepInput, type Kept, outcomesOf } from './keep.ts'
import { type Judged, judgeReduced, readingsOf, reduceList, ruleDefaults } from './measure.ts'
import { patiently } from './patience.ts'
import { type Progress, step } from './progress.ts'

/** How many parts are kept in one step: short enough for others to write in between. */
const partsAtOnce = 50

/**
 * Takes a file of readings into the book as `keepReadings` does, and tells how far it is. Everything is computed first;
 * cancelled until then it leaves nothing behind. Then the readings are taken in one step, and their results after them.
 *
 * @throws {FaultError} every fault of the file; the file was imported before; it was cancelled
 */
export async function takeFile(bench: Bench, input: KeepInput, progress: Progress): Promise<Kept> {
  step(progress, 0, 0, 'Reading the file')
  const { readings, notes } = readingsOf(input)
  const parts = [...byPart(readings).values()]
  const known = await evidenceAgainst(bench, input.tester)
  const judged: Judged[] = []
  for (const [i, own] of parts.entries()) {
    step(progress, i, parts.length, 'Computing results')
    judged.push(judgeReduced(reduceList(bench, { ...input, ...known, readings: own }), input.rule ?? ruleDefaults))
  }
  step(progress, parts.length, parts.length, 'Keeping the readings')
  const run = await patiently(() => importRun(bench, input, readings))
  for (let at = 0; at < judged.length; at += partsAtOnce) {
    progress.tell(at, judged.length, 'Keeping the results')
    const outcomes = judged.slice(at, at + partsAtOnce).flatMap((one) => withoutEvidence(outcomesOf(one)))
    await patiently(() => saveResults(bookOf(bench), { run: run.id, outcomes }, bench.now()))
  }
  return { run, judged: together(input, readings, [...notes], judged) }
}

function byPart(readings: readonly Reading[]): ReadonlyMap<string, readonly Reading[]> {
  const parts = new Map<string, Reading[]>()
  for (const reading of readings) {
    const own = parts.get(reading.part)
    if (own === undefined) parts.set(reading.part, [reading])
    else own.push(reading)
  }
  return parts
}

const together = (
  input: KeepInput,
  readings: readonly Reading[],
  notes: readonly string[],
  all: readonly Judged[],
): Judged => ({
  tester: input.tester,
  readings,
  results: all.flatMap((one) => one.results),
  verdicts: all.flatMap((one) => one.verdicts),
  types: Object.assign({}, ...all.map((one) => one.types)),
  notes: [...new Set([...notes, ...all.flatMap((one) => one.notes)])],
  rule: input.rule ?? ruleDefaults,
})
