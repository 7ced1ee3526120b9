import { FaultError } from '#core/fault'
import type { Tester } from '#core/tester'
import { writeCsv } from '#core/text'
import { type FoundValue, readFound, type TesterPart } from '#core/upkeep'

/** What one typed of a part. */
export interface Typed {
  readonly measured: string
  readonly accuracy: string
}

/** What one typed, by the part. */
export type Sheet = Readonly<Record<string, Typed>>

export const nothingTyped: Typed = { measured: '', accuracy: '' }

/** One row understood, or what is wrong with it as a sentence; neither where nothing was measured. */
export interface RowRead {
  readonly part: TesterPart
  readonly value?: FoundValue
  readonly fault?: string
  /** The field that it is about. */
  readonly faultIn?: keyof Typed
}

/** Reads each row by itself, as a filled sheet of that one part. */
export const readRows = (parts: readonly TesterPart[], sheet: Sheet, tester: Tester): readonly RowRead[] =>
  parts.map((part) => readRow(part, sheet[part.id] ?? nothingTyped, tester))

function readRow(part: TesterPart, { measured, accuracy }: Typed, tester: Tester): RowRead {
  if (measured.trim() === '') return { part }
  try {
    const [value] = readFound(writeCsv(['part', 'measured', 'accuracy'], [[part.id, measured, accuracy]]), '', tester)
    return { part, value: value! }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    const isAccuracy = error.faults.every((f) => f.code === 'bad-input' && f.place.field === 'accuracy')
    return { part, fault: sentencesOf(error), faultIn: isAccuracy ? 'accuracy' : 'measured' }
  }
}

/** Faults of one field, without the place: it is the field. */
export const sentencesOf = (error: FaultError): string =>
  error.faults.map((f) => (f.code === 'bad-input' ? `“${f.value}” ${f.problem}. ${f.mend}` : error.message)).join(' ')

/** A part of full scale as people read it, with its sign: `+9.16 %`. */
export const signedPercent = (part: number): string => {
  const text = `${Math.abs(part * 100).toFixed(2)}\u00a0%`
  return Number((part * 100).toFixed(2)) === 0 ? text : `${part < 0 ? '\u2212' : '+'}${text}`
}
