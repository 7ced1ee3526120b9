import { type Parts, type WordField, wordFields } from './parts.ts'

/** By what, and which way round. `row` is the order in which the parts came. */
export interface Sorting {
  readonly by: string
  readonly isDown: boolean
}

export const sortingDefault: Sorting = { by: 'row', isDown: false }

const kept = new WeakMap<Parts, Map<string, Int32Array>>()

/** Row numbers in order, made once for each column of each state of the drawer. Rows without a value come last. */
export function ordered(parts: Parts, { by, isDown }: Sorting, at25: boolean): Int32Array {
  const known = kept.get(parts) ?? new Map<string, Int32Array>()
  kept.set(parts, known)
  const key = `${by} ${isDown} ${at25}`
  const before = known.get(key)
  if (before !== undefined) return before
  const rows = Int32Array.from({ length: parts.count }, (_, i) => i)
  if (by !== 'row') {
    const keys = keysOf(parts, by, at25)
    const sign = isDown ? -1 : 1
    rows.sort((a, b) => compare(keys[a]!, keys[b]!, sign) || a - b)
  }
  known.set(key, rows)
  return rows
}

/** NaN last, whichever way round. */
function compare(a: number, b: number, sign: 1 | -1): number {
  if (Number.isNaN(a)) return Number.isNaN(b) ? 0 : 1
  if (Number.isNaN(b)) return -1
  return sign * (a - b)
}

/** A number for each row that sorts as the column does. */
function keysOf(parts: Parts, by: string, at25: boolean): ArrayLike<number> {
  if (by === 'tag') return tagRanks(parts.tags.slice(0, parts.count))
  if (by === 'photos') return parts.photos
  if (by === 'notes') return parts.notes
  const field = wordFields.find((f) => f === by)
  if (field !== undefined) return wordRanks(parts, field)
  const values = parts.symbols.get(by)
  return values === undefined ? new Float64Array(parts.count) : at25 ? values.at25 : values.value
}

const inOrder = new Intl.Collator('en', { numeric: true })

function wordRanks(parts: Parts, field: WordField): Float64Array {
  const { words, at } = parts.words[field]
  const rank = new Float64Array(words.length)
  const sorted = words.map((_, i) => i).sort((a, b) => inOrder.compare(words[a]!, words[b]!))
  sorted.forEach((word, i) => {
    rank[word] = i
  })
  return Float64Array.from(at, (word) => (word < 0 ? Number.NaN : rank[word]!))
}

/** Ranks of tags as people count them: T2 before T10. */
function tagRanks(tags: readonly string[]): Float64Array {
  const split = tags.map((tag) => {
    const m = /^(.*?)(\d+)(\D*)$/s.exec(tag)
    return m === null ? { head: tag, number: -1, tail: '' } : { head: m[1]!, number: Number(m[2]), tail: m[3]! }
  })
  const heads = [...new Set(split.map((s) => s.head))].sort(inOrder.compare)
  const headRank = new Map(heads.map((h, i) => [h, i]))
  const sorted = tags
    .map((_, i) => i)
    .sort((a, b) => {
      const [x, y] = [split[a]!, split[b]!]
      return headRank.get(x.head)! - headRank.get(y.head)! || x.number - y.number || (x.tail < y.tail ? -1 : 1)
    })
  const rank = new Float64Array(tags.length)
  sorted.forEach((row, i) => {
    rank[row] = i
  })
  return rank
}

/** Rows that are kept, in order. */
export function listed(parts: Parts, keep: Uint8Array, sorting: Sorting, at25: boolean): Int32Array {
  const order = ordered(parts, sorting, at25)
  const out = new Int32Array(order.length)
  let n = 0
  for (let i = 0; i < order.length; i++) if (keep[order[i]!] === 1) out[n++] = order[i]!
  return out.subarray(0, n)
}
