/**
 * Every fault Germane can meet, as data, and the one function that makes its sentence.
 *
 * A fault names the field, the value that was found and the mend. Command line, page and report print the same words.
 */

/** Where in a file, or in which part of an input, something was found. All positions count from 1. */
export interface Place {
  readonly file?: string
  readonly line?: number
  readonly column?: number
  /** Row of a table, the header being row 1. */
  readonly row?: number
  /** Name of the table column, or path inside a document: `ranges[2].shunt`. */
  readonly field?: string
}

export type Fault =
  | { readonly code: 'out-of-domain'; readonly name: string; readonly value: number | string; readonly allowed: string }
  | { readonly code: 'unit-mismatch'; readonly name: string; readonly got: string; readonly wanted: string }
  | { readonly code: 'unknown-formula'; readonly id: string }
  /** Something a person typed or wrote could not be used. */
  | {
      readonly code: 'bad-input'
      readonly place: Place
      /** The value as it stood there. */
      readonly value: string
      /** What is wrong with it, as a clause: "is not a current". */
      readonly problem: string
      /** What to do, as a sentence: "Write it as 12.5 uA." */
      readonly mend: string
    }
  /** A thing was asked for by name and is not there. */
  | {
      readonly code: 'not-found'
      readonly what: string
      readonly name: string
      /** Near matches, best first. */
      readonly near: readonly string[]
      readonly mend?: string
    }
  /** The book file cannot be used, or something about it is wrong. */
  | { readonly code: 'book'; readonly file: string; readonly problem: string; readonly mend: string }
  /** A file could not be read or written. */
  | { readonly code: 'file'; readonly file: string; readonly problem: string; readonly mend: string }
  /** The request itself makes no sense: an option that clashes, a missing argument. */
  | { readonly code: 'usage'; readonly problem: string; readonly mend: string }

/** Stands as the value of a fault that is about all of a text, and is not put in quotes. */
export const wholeText = 'the text'

/** A place as people read it: `readings.csv, row 7, column "shown"`. */
export function placeText(place: Place): string {
  const parts: string[] = []
  if (place.file !== undefined) parts.push(place.file)
  if (place.row !== undefined) parts.push(`row ${place.row}`)
  else if (place.line !== undefined)
    parts.push(place.column === undefined ? `line ${place.line}` : `line ${place.line}:${place.column}`)
  if (place.field !== undefined) parts.push(place.row === undefined ? place.field : `column "${place.field}"`)
  return parts.join(', ')
}

/** The sentence for a fault. There is no default case: a new code must be handled. */
export function explain(fault: Fault): string {
  switch (fault.code) {
    case 'out-of-domain':
      return `${fault.name} is ${fault.value}; it must be ${fault.allowed}.`
    case 'unit-mismatch':
      return `${fault.name} is in ${fault.got}; it must be in ${fault.wanted}.`
    case 'unknown-formula':
      return `No formula is called ${fault.id}. It may come from a newer Germane.`
    case 'bad-input': {
      const where = placeText(fault.place)
      const value = fault.value === wholeText ? wholeText : `"${fault.value}"`
      return `${where === '' ? '' : `${where}: `}${value} ${fault.problem}. ${fault.mend}`
    }
    case 'not-found': {
      const near = fault.near.length === 0 ? '' : ` Near it: ${fault.near.join(', ')}.`
      return `There is no ${fault.what} called "${fault.name}".${near}${fault.mend === undefined ? '' : ` ${fault.mend}`}`
    }
    case 'book':
    case 'file':
      return `${fault.file}: ${fault.problem}. ${fault.mend}`
    case 'usage':
      return `${fault.problem}. ${fault.mend}`
  }
}

/** One or more faults, thrown together so that a person sees all of them at once. */
export class FaultError extends Error {
  override readonly name = 'FaultError'
  readonly faults: readonly Fault[]
  constructor(faults: Fault | readonly Fault[], options?: ErrorOptions) {
    const list: readonly Fault[] = Array.isArray(faults) ? faults : [faults as Fault]
    super(list.map(explain).join('\n'), options)
    this.faults = list
  }
}
