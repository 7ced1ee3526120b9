import type { Reading } from '#core/tester'
import type { Driver } from './book.ts'

/** Numbers of parts by tag; parts that are not in the book yet are added with the type the reading names. */
export function partNumbers(
  driver: Driver,
  readings: readonly { readonly part: string; readonly type?: string }[],
  at: string,
): Map<string, number> {
  const known = driver.prepare<[string], { id: number }>('SELECT id FROM part WHERE tag = ?')
  const add = driver.prepare('INSERT INTO part (tag, type, status, at) VALUES (?, ?, ?, ?)')
  const numbers = new Map<string, number>()
  for (const { part, type } of readings) {
    if (numbers.has(part)) continue
    const row = known.get(part)
    numbers.set(part, row?.id ?? Number(add.run(part, type ?? null, 'kept', at).lastInsertRowid))
  }
  return numbers
}

const columns = [
  'run',
  'part',
  'type',
  'reads',
  'shown',
  'seen',
  'range',
  'scale',
  'point',
  'supply',
  'ambient',
  'ambient_u',
  'at',
  'note',
  'replaces',
  'entered_at',
] as const

/**
 * Adds rows to an open transaction by the driver itself, which takes 100,000 of them in about a second.
 *
 * @returns number of the first row; the others follow it one by one
 */
export function insertReadings(
  driver: Driver,
  run: number,
  readings: readonly Reading[],
  at: string,
  replaces: number | null = null,
): number {
  const numbers = partNumbers(driver, readings, at)
  const marks = columns.map(() => '?').join(', ')
  const insert = driver.prepare(`INSERT INTO reading (id, ${columns.join(', ')}) VALUES (?, ${marks})`)
  const first = driver.prepare<[], { id: number }>('SELECT coalesce(max(id), 0) + 1 AS id FROM reading').get()?.id ?? 1
  readings.forEach((r, i) => {
    const seen = [r.type ?? null, r.reads, JSON.stringify(r.shown), r.seen, r.range ?? null, r.scale ?? null, r.point]
    const about = [r.supplyV ?? null, r.ambientC ?? null, r.ambientU ?? null, r.at ?? null, r.note ?? null]
    insert.run(first + i, run, numbers.get(r.part), ...seen, ...about, replaces, at)
  })
  return first
}
