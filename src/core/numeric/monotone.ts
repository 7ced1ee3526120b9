import { FaultError } from '#core/fault'

/**
 * A smooth curve through points that never swings beyond them: where the points rise it rises, and a highest point stays
 * the highest. Cubic pieces with limited slopes.
 *
 * @param x places, rising
 * @param y values at them, as many
 * @returns the curve; asked outside the points it throws a {@link FaultError} `out-of-domain`
 * @throws {FaultError} `out-of-domain` for fewer than two points, or places that do not rise
 * @see F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304; slopes at the ends as in PCHIP
 * @example monotoneCurve([0, 1, 2], [0, 1, 4])(1.5) // 2.1875
 */
export function monotoneCurve(x: readonly number[], y: readonly number[]): (at: number) => number {
  const widths = x.slice(1).map((b, i) => b - x[i]!)
  if (widths.length === 0 || !widths.every((h) => h > 0))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'places of a curve',
      value: x.length < 2 ? x.length : x.join(', '),
      allowed: 'two or more, each above the one before',
    })
  const rises = widths.map((h, i) => (y[i + 1]! - y[i]!) / h)
  const slopes = slopesOf(widths, rises)
  const last = widths.length - 1
  return (at) => {
    if (!(at >= x[0]! && at <= x[last + 1]!))
      throw new FaultError({
        code: 'out-of-domain',
        name: 'place on a curve',
        value: at,
        allowed: `between ${x[0]} and ${x[last + 1]}`,
      })
    const i = pieceAt(x, at, last)
    const h = widths[i]!
    const t = (at - x[i]!) / h
    const bend = (slopes[i]! + slopes[i + 1]! - 2 * rises[i]!) * t
    const first = 3 * rises[i]! - 2 * slopes[i]! - slopes[i + 1]!
    return y[i]! + h * t * (slopes[i]! + t * (first + bend))
  }
}

/** The piece a place lies in. */
function pieceAt(x: readonly number[], at: number, last: number): number {
  let low = 0
  let high = last
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (x[middle]! <= at) low = middle
    else high = middle - 1
  }
  return low
}

function slopesOf(h: readonly number[], d: readonly number[]): readonly number[] {
  if (d.length === 1) return [d[0]!, d[0]!]
  const inner = d.slice(1).map((next, i) => {
    const before = d[i]!
    if (before * next <= 0) return 0
    const a = 2 * h[i + 1]! + h[i]!
    const b = h[i + 1]! + 2 * h[i]!
    return (a + b) / (a / before + b / next)
  })
  const n = d.length
  return [endSlope(h[0]!, h[1]!, d[0]!, d[1]!), ...inner, endSlope(h[n - 1]!, h[n - 2]!, d[n - 1]!, d[n - 2]!)]
}

/** Slope at an end from three points, limited so that the end piece keeps its direction. */
function endSlope(h: number, nextH: number, d: number, nextD: number): number {
  const slope = ((2 * h + nextH) * d - h * nextD) / (h + nextH)
  if (slope * d <= 0) return 0
  return d * nextD <= 0 && Math.abs(slope) > 3 * Math.abs(d) ? 3 * d : slope
}
