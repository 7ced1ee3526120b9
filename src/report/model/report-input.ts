import type { PartType } from '#core/device'
import { type Fault, FaultError } from '#core/fault'
import type { Verdict } from '#core/judge'
import type { PartResult } from '#core/reduce'
import type { Reading, Tester } from '#core/tester'
import type { CurvePicture } from './model.ts'

/** How the working of each number stands on the page: open, folded until it is asked for, or left out. */
export type Workings = 'open' | 'folded' | 'none'

/** Everything a report is made of. */
export interface ReportInput {
  readonly title: string
  /** ISO date of printing, with or without a time. */
  readonly printedAt: string
  readonly tester: Tester
  /** Published records by type name; a type that is not here is shown by its name alone. */
  readonly partTypes: Readonly<Record<string, PartType>>
  readonly results: readonly PartResult[]
  readonly verdicts: readonly Verdict[]
  /** What the person wants said, a paragraph each. */
  readonly notes: readonly string[]
  readonly readings?: readonly Reading[]
  readonly curves?: readonly CurvePicture[]
  /** By default open for one part and folded for a lot. */
  readonly workings?: Workings
  /** Tags of the parts that get a section; by default every part, up to `sectionLimit`. */
  readonly sections?: readonly string[]
  /** Above this number of parts only the sections asked for are made. */
  readonly sectionLimit?: number
}

export const reportDefaults = { sectionLimit: 300 } as const

const isoDate = /^(\d{4})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(?:[T ]([01]\d|2[0-3]):([0-5]\d).*)?$/

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** An ISO date as people write it: `25 November 1968`, or `25 November 1968, 14:30`; undefined for anything else. */
export function dateText(iso: string): string | undefined {
  const m = isoDate.exec(iso)
  if (m === null) return undefined
  const day = `${Number(m[3])} ${months[Number(m[2]) - 1]} ${m[1]}`
  return m[4] === undefined ? day : `${day}, ${m[4]}:${m[5]}`
}

/** Faults of an input, all of them: a date that is none, a section for a part that is not there. */
export function inputFaults(input: ReportInput): readonly Fault[] {
  const faults: Fault[] = []
  if (dateText(input.printedAt) === undefined)
    faults.push({
      code: 'bad-input',
      place: { field: 'printedAt' },
      value: input.printedAt,
      problem: 'is not a date',
      mend: 'Write it as 1968-11-25.',
    })
  const tags = new Set(input.results.map((r) => r.part))
  for (const name of input.sections ?? [])
    if (!tags.has(name)) faults.push({ code: 'not-found', what: 'part in this report', name, near: [] })
  return faults
}

/** @throws {FaultError} with all faults of the input */
export function checkInput(input: ReportInput): void {
  const faults = inputFaults(input)
  if (faults.length > 0) throw new FaultError(faults)
}
