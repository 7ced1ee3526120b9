import { FaultError } from '#core/fault'
import type { Json } from './tables.ts'

/**
 * Data as JSON text. A number that JSON cannot hold is refused instead of becoming null.
 *
 * @throws {FaultError} `out-of-domain` with the path of the number
 */
export function toJson(data: unknown, what: string): Json {
  requireFinite(data, what)
  return JSON.stringify(data)
}

export const fromJson = <T>(text: Json): T => JSON.parse(text) as T

function requireFinite(data: unknown, path: string): void {
  if (typeof data === 'number' && !Number.isFinite(data))
    throw new FaultError({ code: 'out-of-domain', name: path, value: String(data), allowed: 'a finite number' })
  if (typeof data !== 'object' || data === null) return
  for (const [key, value] of Object.entries(data)) requireFinite(value, `${path}.${key}`)
}

/** Whether two pieces of data say the same; `undefined` and a missing key are one, the order of keys does not count. */
export function isSame(a: unknown, b: unknown, tolerance = 0): boolean {
  if (typeof a === 'number' && typeof b === 'number')
    return a === b || Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b))
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b
  if (Array.isArray(a) !== Array.isArray(b)) return false
  const keys = new Set([...Object.keys(a), ...Object.keys(b)])
  for (const key of keys) if (!isSame(a[key as never], b[key as never], tolerance)) return false
  return true
}

type Filled<T> = { [K in keyof T]: Exclude<T[K], null> }

/** A row as data: what is null in the file is left out. */
export function withoutNulls<T extends object>(
  row: T,
): { [K in keyof T as null extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as null extends T[K] ? K : never]?: Filled<T>[K]
} {
  const filled: Record<string, unknown> = {}
  for (const key in row) if (row[key] !== null) filled[key] = row[key]
  return filled as never
}
