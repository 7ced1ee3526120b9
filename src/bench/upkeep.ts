import {
  addCheckStandard,
  addFoundRecord,
  type BookCheckStandard,
  checkStandards,
  type FoundRecord,
  foundRecords,
  type NewCheckStandard,
  type NewFoundRecord,
  type OftenRead,
  oftenRead,
  removeCheckStandard,
  removeFoundRecord,
  saveTesterNoted,
} from '#book'
import type { CheckStandard } from '#core/upkeep'
import { type Bench, bookOf, type KnownTester } from './bench.ts'
import { patiently } from './patience.ts'
import { standardReadings } from './steadiness.ts'

/** What was kept, and the number of the edit, by which it can be undone. */
export interface KeptUpkeep {
  readonly id: number
  readonly edit: number
}

/** A check standard with what was read of it. */
export interface StandardRead extends BookCheckStandard {
  readonly unit: CheckStandard['unit']
  readonly groups: CheckStandard['groups']
}

/** What the book keeps of the upkeep of a tester. */
export interface UpkeepStory {
  readonly found: readonly FoundRecord[]
  readonly standards: readonly StandardRead[]
  /** Parts that were read often on it, and so may serve as check standards. */
  readonly often: readonly OftenRead[]
}

export async function upkeepOf(bench: Bench, tester: string): Promise<UpkeepStory> {
  const book = bookOf(bench)
  const standards: StandardRead[] = []
  for (const named of await checkStandards(book, tester)) {
    const read = await standardReadings(bench, named)
    standards.push({ ...named, unit: read?.unit ?? '1', groups: read?.groups ?? [] })
  }
  return { found: await foundRecords(book, tester), standards, often: await oftenRead(book, tester) }
}

/** Keeps what was measured of a tester; a sample, or a description file, comes into the book with it. */
export async function keepFound(
  bench: Bench,
  known: KnownTester,
  found: Omit<NewFoundRecord, 'tester'>,
): Promise<KeptUpkeep> {
  await ownTester(bench, known)
  const record = { ...found, tester: known.tester.id }
  return patiently(() => addFoundRecord(bookOf(bench), record, bench.now()))
}

/** Names a check standard of a tester; a sample, or a description file, comes into the book with it. */
export async function keepStandard(
  bench: Bench,
  known: KnownTester,
  standard: Omit<NewCheckStandard, 'tester'>,
): Promise<KeptUpkeep> {
  await ownTester(bench, known)
  const named = { ...standard, tester: known.tester.id }
  return patiently(() => addCheckStandard(bookOf(bench), named, bench.now()))
}

async function ownTester(bench: Bench, { from, tester, description }: KnownTester): Promise<void> {
  if (from === 'book') return
  const given = { tester, ...(description === undefined ? {} : { description }) }
  await patiently(() => saveTesterNoted(bookOf(bench), given, bench.now()))
}

/** Takes a record of what was found away. @throws {FaultError} `not-found` */
export const dropFound = (bench: Bench, id: number): Promise<{ readonly tester: string; readonly edit: number }> =>
  patiently(() => removeFoundRecord(bookOf(bench), id, bench.now()))

/** Takes a check standard away. @throws {FaultError} `not-found` */
export const dropStandard = (bench: Bench, id: number): Promise<{ readonly tester: string; readonly edit: number }> =>
  patiently(() => removeCheckStandard(bookOf(bench), id, bench.now()))
