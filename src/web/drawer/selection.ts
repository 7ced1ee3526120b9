/** The parts chosen. A new object after every change. */
export interface Selection {
  readonly rows: ReadonlySet<number>
}

export const nothingChosen: Selection = { rows: new Set() }

export const only = (rows: Iterable<number>): Selection => ({ rows: new Set(rows) })

/** With rows added, or, where all of them are chosen already, taken away. */
export function toggled(s: Selection, rows: readonly number[]): Selection {
  const next = new Set(s.rows)
  const isAll = rows.every((r) => next.has(r))
  for (const r of rows) {
    if (isAll) next.delete(r)
    else next.add(r)
  }
  return { rows: next }
}

export const withRows = (s: Selection, rows: Iterable<number>): Selection => ({ rows: new Set([...s.rows, ...rows]) })

/** Rows of a list between two of them, both counted. */
export function between(list: Int32Array, from: number, to: number): readonly number[] {
  const [a, b] = from < to ? [from, to] : [to, from]
  return [...list.subarray(Math.max(0, a), b + 1)]
}
