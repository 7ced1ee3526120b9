import { FaultError } from '#core/fault'

/** How a lot is split. */
export const gradings = {
  equal: 'as many parts in each, as nearly as can be',
  natural: 'where the values leave gaps: the least sum of squared distances from the means of the batches',
} as const

export type Grading = keyof typeof gradings

/** One batch of a lot, from low values to high. */
export interface Grade {
  /** The code its parts are marked with. */
  readonly code: string
  readonly from: number
  readonly to: number
  readonly mean: number
  readonly tags: readonly string[]
}

/** A part and the value it is graded by. */
export interface Graded {
  readonly tag: string
  readonly value: number
}

/**
 * Splits a lot into batches by one value, lowest first.
 *
 * @param codes the marks of the batches, from low to high; as many batches as codes
 * @throws {FaultError} `out-of-domain` where there are fewer parts than batches
 * @see W. D. Fisher, On grouping for maximum homogeneity, J. Amer. Statist. Assoc. 53 (1958) 789-798
 * @example gradeParts(parts, ['red', 'yellow', 'green'], 'natural')
 */
export function gradeParts(parts: readonly Graded[], codes: readonly string[], how: Grading): readonly Grade[] {
  const count = codes.length
  if (count < 1 || parts.length < count)
    throw new FaultError({
      code: 'out-of-domain',
      name: 'count of batches',
      value: count,
      allowed: `from 1 to the number of parts, ${parts.length}`,
    })
  const sorted = [...parts].sort((a, b) => a.value - b.value || (a.tag < b.tag ? -1 : 1))
  const starts = how === 'equal' ? evenStarts(sorted.length, count) : naturalStarts(sorted, count)
  return starts.flatMap((start, k) => {
    const own = sorted.slice(start, starts[k + 1] ?? sorted.length)
    if (own.length === 0) return []
    const mean = own.reduce((sum, x) => sum + x.value, 0) / own.length
    return [{ code: codes[k]!, from: own[0]!.value, to: own.at(-1)!.value, mean, tags: own.map((x) => x.tag) }]
  })
}

const evenStarts = (n: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, k) => Math.round((k * n) / count))

/** Where natural batches start. The best place of a start grows with the end, so that each row is halved again and again. */
function naturalStarts(sorted: readonly Graded[], count: number): readonly number[] {
  const n = sorted.length
  const about = sorted[Math.floor(n / 2)]!.value
  const sums = new Float64Array(n + 1)
  const squares = new Float64Array(n + 1)
  for (let i = 0; i < n; i++) {
    const x = sorted[i]!.value - about
    sums[i + 1] = sums[i]! + x
    squares[i + 1] = squares[i]! + x * x
  }
  /** Squared distances from their mean, of the parts from i up to and without j. */
  const within = (i: number, j: number): number =>
    i >= j ? 0 : Math.max(0, squares[j]! - squares[i]! - (sums[j]! - sums[i]!) ** 2 / (j - i))
  let cost = Float64Array.from({ length: n + 1 }, (_, j) => within(0, j))
  const from: Int32Array[] = []
  for (let k = 2; k <= count; k++) {
    const row = { cost: new Float64Array(n + 1), start: new Int32Array(n + 1) }
    fillRow(row, { before: cost, within }, { low: 0, high: n, first: 0, last: n })
    cost = row.cost
    from.push(row.start)
  }
  const starts = [0]
  for (let k = count - 2, end = n; k >= 0; k--) {
    end = from[k]![end]!
    starts.splice(1, 0, end)
  }
  return starts
}

interface Row {
  readonly cost: Float64Array
  readonly start: Int32Array
}

interface Sums {
  readonly before: Float64Array
  readonly within: (i: number, j: number) => number
}

interface Span {
  readonly low: number
  readonly high: number
  /** Between these the best start lies. */
  readonly first: number
  readonly last: number
}

function fillRow(row: Row, sums: Sums, { low, high, first, last }: Span): void {
  if (low > high) return
  const end = (low + high) >> 1
  let best = Number.POSITIVE_INFINITY
  let at = first
  for (let start = first; start <= Math.min(last, end); start++) {
    const cost = sums.before[start]! + sums.within(start, end)
    if (cost >= best) continue
    best = cost
    at = start
  }
  row.cost[end] = best
  row.start[end] = at
  fillRow(row, sums, { low, high: end - 1, first, last: at })
  fillRow(row, sums, { low: end + 1, high, first: at, last })
}
