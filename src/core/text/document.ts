import type { Fault, Place } from '#core/fault'
import { filePlace, type ReadOptions } from './text-fault.ts'

/** A path inside a document, as keys and list positions counted from 0. */
export type Path = readonly PropertyKey[]

/** A spot in a text: line and column count from 1; `text` is what stands there. */
export interface Spot {
  readonly line: number
  readonly column: number
  readonly text: string
}

/** Finds where the value at a path, or its key, stands; undefined when there is no such path. */
export type Find = (path: Path, what?: 'key' | 'value') => Spot | undefined

/** A YAML or JSON text that was read: its data, and a way back to where each value stands. */
export interface TextDocument {
  readonly file?: string
  readonly kind: 'yaml' | 'json' | 'data'
  readonly data: unknown
  readonly find: Find
}

export type DocumentRead =
  | { readonly ok: true; readonly document: TextDocument }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** A path as people read it, list positions counted from 1: `ranges[2].shunt`. */
export function pathText(path: Path): string {
  let text = ''
  for (const step of path)
    text += typeof step === 'number' ? `[${step + 1}]` : text === '' ? String(step) : `.${String(step)}`
  return text
}

/** Data that did not come from a text: faults about it name the path alone. */
export const dataDocument = (data: unknown, options: ReadOptions = {}): TextDocument => ({
  ...(options.file === undefined ? {} : { file: options.file }),
  kind: 'data',
  data,
  find: () => undefined,
})

/** The value at a path in the data; undefined where there is none. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined
    value = (value as Record<PropertyKey, unknown>)[step]
  }
  return value
}

/** Place of a path in a document for a fault, or of what encloses it where the path itself is not there. */
export function placeOf(document: TextDocument, path: Path, what: 'key' | 'value' = 'value'): Place {
  const field = pathText(path)
  let spot = document.find(path, what)
  for (let n = path.length - 1; spot === undefined && n >= 0; n--) spot = document.find(path.slice(0, n), 'key')
  return {
    ...filePlace(document.file),
    ...(spot === undefined ? {} : { line: spot.line, column: spot.column }),
    ...(field === '' ? {} : { field }),
  }
}

/** The value at a path as it stands in the text, on one line and not too long. */
export function valueText(document: TextDocument, path: Path): string {
  const value = valueAt(document.data, path)
  const written =
    document.find(path)?.text ?? (typeof value === 'string' ? value : (JSON.stringify(value) ?? 'nothing'))
  const one = written.replaceAll(/\s+/g, ' ').trim()
  const bare = typeof value === 'string' ? one.replace(/^(["'])(.*)\1$/, '$2') : one
  if (bare === '') return value === null ? 'nothing' : ''
  return bare.length > 60 ? `${bare.slice(0, 57)}...` : bare
}

/** A `bad-input` fault about the value at a path of a document. */
export const documentFault = (document: TextDocument, path: Path, problem: string, mend: string): Fault => ({
  code: 'bad-input',
  place: placeOf(document, path),
  value: valueText(document, path),
  problem,
  mend,
})
