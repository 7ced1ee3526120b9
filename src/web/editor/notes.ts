import type { SaidFault } from '#api'
import { explain, type Fault, type Place } from '#core/fault'

/** A fault beside the line it stands on. */
export interface LineNote {
  /** Line of the text, from 1. */
  readonly line: number
  /** Path of the value: `ranges[2].circuit.shunt`. */
  readonly field?: string
  /** What is wrong, then what to do. */
  readonly say: string
}

const placeOf = (fault: Fault | SaidFault): Place =>
  'place' in fault && fault.place !== undefined ? (fault.place as Place) : {}

function sayOf(fault: Fault | SaidFault): string {
  if (fault.code === 'bad-input' && 'problem' in fault) {
    const f = fault as Extract<Fault, { code: 'bad-input' }>
    return `${f.value === '' ? '' : `"${f.value}" `}${f.problem}. ${f.mend}`
  }
  return 'sentence' in fault ? fault.sentence : explain(fault)
}

/** Faults as notes for the margin, in the order of their lines; one without a line stands at the first. */
export const notesOf = (faults: readonly (Fault | SaidFault)[]): readonly LineNote[] =>
  faults
    .map((f): LineNote => {
      const { line = 1, field } = placeOf(f)
      return { line, ...(field === undefined ? {} : { field }), say: sayOf(f) }
    })
    .sort((a, b) => a.line - b.line)
