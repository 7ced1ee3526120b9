import {
  type CompareOptions,
  type Comparison,
  compareTesters,
  type Interchange,
  interchange,
  type Purpose,
  readPairedTable,
} from '#core/upkeep'
import { comparisonSheet, type Sheet } from '#report/sheet'

export interface CompareInput {
  readonly text: string
  readonly file: string
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
export function compareTestersFile({ text, file, options, purpose }: CompareInput): ComparedTesters {
  const table = readPairedTable(text, file)
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
