/** A line of two texts: in both, only in the older, or only in the newer. */
export interface DiffLine {
  readonly kind: 'same' | 'gone' | 'new'
  readonly text: string
}

/**
 * What changed between two texts, line by line: the longest run of common lines stays, the rest went or came. Made for
 * descriptions of a few hundred lines.
 */
export function diffLines(older: string, newer: string): readonly DiffLine[] {
  const a = older.split('\n')
  const b = newer.split('\n')
  const common = lengths(a, b)
  const out: DiffLine[] = []
  let i = 0
  let j = 0
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      out.push({ kind: 'same', text: a[i]! })
      i += 1
      j += 1
    } else if (j >= b.length || (i < a.length && common[i + 1]![j]! >= common[i]![j + 1]!)) {
      out.push({ kind: 'gone', text: a[i]! })
      i += 1
    } else {
      out.push({ kind: 'new', text: b[j]! })
      j += 1
    }
  }
  return out
}

/** Length of the longest common part of what follows each pair of lines. */
function lengths(a: readonly string[], b: readonly string[]): readonly Uint16Array[] {
  const rows = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1))
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      rows[i]![j] = a[i] === b[j] ? rows[i + 1]![j + 1]! + 1 : Math.max(rows[i + 1]![j]!, rows[i]![j + 1]!)
  return rows
}
