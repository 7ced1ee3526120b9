import { findType, type PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { judge, type Rule, type Verdict } from '#core/judge'
import { type Against, type PartResult, reduceReadings } from '#core/reduce'
import { type Reading, readReadings, type Tester } from '#core/tester'
import type { Bench } from './bench.ts'

/** A file of readings, and what it does not say itself. */
export interface ReadingsInput {
  readonly text: string
  readonly file: string
  readonly tester: Tester
  /** Type of parts whose readings name none; `unknown` for unmarked parts. */
  readonly typeName?: string
  readonly ambientC?: number
  readonly ambientU?: number
  /** Whether parameters are brought to 25 degC as well (left out: yes); verdicts do not need it. */
  readonly at25?: boolean
  /** What is known against readings beside the description. */
  readonly against?: Against
}

/** Readings reduced to parameters. */
export interface Reduced {
  readonly tester: Tester
  readonly readings: readonly Reading[]
  readonly results: readonly PartResult[]
  /** Published records of the types that were named, by the name the readings use. */
  readonly types: Readonly<Record<string, PartType>>
  /** What the reader should know: how the file was understood, types that are not known. Sentences. */
  readonly notes: readonly string[]
}

export interface Judged extends Reduced {
  readonly verdicts: readonly Verdict[]
  readonly rule: Rule
}

/** Reads a file of readings. @throws {FaultError} every fault of the file */
export function readingsOf(input: ReadingsInput): { readings: readonly Reading[]; notes: readonly string[] } {
  const read = readReadings(input.text, { file: input.file, tester: input.tester })
  if (!read.ok) throw new FaultError(read.faults)
  const { typeName } = input
  if (typeName === undefined || isUnknown(typeName)) return read
  return {
    readings: read.readings.map((r) => (r.type === undefined ? { ...r, type: typeName } : r)),
    notes: read.notes,
  }
}

/** Whether a type name says that the part is unmarked. */
export const isUnknown = (name: string): boolean => /^(unknown|\?)$/i.test(name.trim())

/** Reduces a file of readings. @throws {FaultError} every fault of the file */
export function reduceFile(bench: Bench, input: ReadingsInput): Reduced {
  const { readings, notes } = readingsOf(input)
  return reduceList(bench, { ...input, readings, notes })
}

export interface ReadingsList {
  readonly tester: Tester
  readonly readings: readonly Reading[]
  readonly notes?: readonly string[]
  readonly ambientC?: number
  readonly ambientU?: number
  readonly at25?: boolean
  readonly against?: Against
}

/** Reduces readings that are at hand. */
export function reduceList(bench: Bench, list: ReadingsList): Reduced {
  const { types, notes } = namedTypes(bench, list.readings)
  const results = reduceReadings(list.tester, list.readings, {
    types: (name) => types[name],
    ...(list.ambientC === undefined ? {} : { ambientC: list.ambientC }),
    ...(list.ambientU === undefined ? {} : { ambientU: list.ambientU }),
    ...(list.at25 === undefined ? {} : { at25: list.at25 }),
    ...(list.against === undefined ? {} : { against: list.against }),
  })
  return {
    tester: list.tester,
    readings: list.readings,
    results,
    types,
    notes: [...(list.notes ?? []), ...notes],
  }
}

/** How sure a verdict must be unless one says otherwise. */
export const ruleDefaults = { kind: 'guarded', probability: 0.95 } as const satisfies Rule

/** Holds what was reduced against the published limits of each part's type. */
export function judgeReduced(reduced: Reduced, rule: Rule = ruleDefaults): Judged {
  const verdicts = reduced.results.flatMap((r) => {
    const type = r.type === undefined ? undefined : reduced.types[r.type]
    return type === undefined || r.state !== 'measured' ? [] : judge(r.parameters, type, { rule })
  })
  return { ...reduced, verdicts, rule }
}

function namedTypes(bench: Bench, readings: readonly Reading[]) {
  const types: Record<string, PartType> = {}
  const notes: string[] = []
  for (const name of new Set(readings.map((r) => r.type))) {
    if (name === undefined || isUnknown(name)) continue
    const { found, near } = findType(bench.types, name)
    if (found !== undefined) types[name] = found.partType
    if (found?.note !== undefined) notes.push(found.note)
    if (found === undefined)
      notes.push(
        `No record of a part type called ${name}: its parts are measured but not judged.${near.length === 0 ? '' : ` Near it: ${near.join(', ')}.`}`,
      )
  }
  return { types, notes }
}
