import {
  type Noted,
  partsOfType,
  partTypes,
  partTypeVersions,
  savePartTypesNoted,
  saveTesterNoted,
  testerVersions,
  tester as versionOf,
} from '#book'
import {
  explainTypeNumber,
  leadOrderDoubt,
  needType,
  type PartType,
  provenanceText,
  readPartTypes,
  type TypeNumberReading,
} from '#core/device'
import { type Fault, FaultError } from '#core/fault'
import type { Gap, Wishes } from '#core/sheet'
import type { Tester } from '#core/tester'
import { readTester } from '#core/tester'
import { type Bench, bookOf, type KnownTester, testerFromText, testerNamed } from './bench.ts'
import { patiently } from './patience.ts'
import { planRun } from './plan.ts'
import { typeText } from './type-text.ts'

/** A tester with its description and its versions. */
export interface TesterStory extends KnownTester {
  readonly description: string
  readonly versions: readonly { readonly version: number; readonly at: string; readonly runs: number }[]
}

/**
 * A tester by id, in a version of the book where one is asked for.
 *
 * @throws {FaultError} `not-found` with near names
 */
export async function testerStory(bench: Bench, id: string, version?: number): Promise<TesterStory> {
  const book = bookOf(bench)
  const known: KnownTester =
    version === undefined ? testerNamed(bench, id) : { ...(await versionOf(book, id, version)), from: 'book' }
  return {
    ...known,
    description: known.description ?? `${JSON.stringify(known.tester, null, 2)}\n`,
    versions: await testerVersions(book, known.tester.id),
  }
}

/** What came of reading a text. Nothing is thrown: all that is wrong is in the list. */
export type TextRead<T> =
  | { readonly ok: true; readonly read: T }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a tester's description as it is being typed. */
export function readTesterText(text: string): TextRead<Tester> {
  const read = readTester(text)
  return read.ok ? { ok: true, read: read.tester } : read
}

/** Reads part types as they are being typed. */
export function readTypesText(text: string): TextRead<readonly PartType[]> {
  try {
    return { ok: true, read: readPartTypes(text) }
  } catch (error) {
    if (error instanceof FaultError) return { ok: false, faults: error.faults }
    throw error
  }
}

/** Keeps a tester's description as an edit that can be undone. @throws {FaultError} all that is wrong with it */
export async function keepTesterText(bench: Bench, text: string): Promise<Noted & { readonly name: string }> {
  const { tester } = testerFromText(text, 'the description')
  const given = { tester, description: text }
  const noted = await patiently(() => saveTesterNoted(bookOf(bench), given, bench.now()))
  return { name: tester.id, ...noted }
}

/** Keeps part types as one edit that can be undone. @throws {FaultError} all that is wrong with the text */
export async function keepTypesText(
  bench: Bench,
  text: string,
): Promise<readonly (Noted & { readonly name: string })[]> {
  const types = readPartTypes(text)
  const noted = await patiently(() => savePartTypesNoted(bookOf(bench), types, bench.now()))
  return noted.map((one, i) => ({ name: types[i]!.type, ...one }))
}

/** The user's own part types, with their versions. */
export const ownTypes = (bench: Bench) => partTypes(bookOf(bench))

/** A part type with all there is to say of it. */
export interface TypeStory {
  readonly partType: PartType
  readonly from: 'catalog' | 'book'
  readonly note?: string
  readonly source: string
  readonly leadDoubt?: string
  readonly versions: readonly { readonly version: number; readonly at: string }[]
  /** The record as text one can edit. */
  readonly text: string
  readonly parts: number
  readonly explained: readonly TypeNumberReading[]
}

/** @throws {FaultError} `not-found` with near numbers */
export async function typeStory(bench: Bench, name: string): Promise<TypeStory> {
  const book = bookOf(bench)
  const { partType, note } = needType(bench.types, name)
  const own = (await partTypes(book)).some((one) => one.partType.type === partType.type)
  const leadDoubt = leadOrderDoubt(partType)
  return {
    partType,
    from: own ? 'book' : 'catalog',
    ...(note === undefined ? {} : { note }),
    source: provenanceText(partType.provenance),
    ...(leadDoubt === undefined ? {} : { leadDoubt }),
    versions: await partTypeVersions(book, partType.type),
    text: typeText(partType),
    parts: await partsOfType(book, partType.type),
    explained: explainTypeNumber(partType.type),
  }
}

/** What a tester can and cannot measure of a type. */
export interface Coverage {
  readonly tester: string
  readonly type: string
  readonly can: readonly {
    readonly symbol: string
    readonly range?: string
    readonly supplyV?: number
    readonly conditions: Readonly<Record<string, number>>
  }[]
  readonly gaps: readonly Gap[]
  readonly assumed: readonly string[]
}

/** @throws {FaultError} `not-found` */
export function coverageOf(bench: Bench, testerId: string, typeName: string, wishes: Partial<Wishes> = {}): Coverage {
  const { tester } = testerNamed(bench, testerId)
  const sheet = planRun(bench, { tester, typeName, wishes })
  const can = sheet.steps.flatMap((step) =>
    step.kind !== 'read' || step.reads === 'short'
      ? []
      : [
          {
            symbol: step.reads,
            ...(step.range === undefined ? {} : { range: step.range }),
            ...(step.supplyV === undefined ? {} : { supplyV: step.supplyV }),
            conditions: { ...step.conditions } as Record<string, number>,
          },
        ],
  )
  return {
    tester: tester.id,
    type: sheet.partType?.type ?? typeName,
    can,
    gaps: sheet.gaps,
    assumed: sheet.assumed ?? [],
  }
}
