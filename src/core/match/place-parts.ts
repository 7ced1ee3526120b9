import type { LeftOver } from './answer.ts'
import type { Points } from './point-tree.ts'
import type { MatchPart, MatchRequest, WantedParameter } from './request.ts'

/** Parts that take part, as points; in an order that does not depend on how they came. */
export interface Placed {
  readonly parts: readonly MatchPart[]
  /** Each value over its scale, times its weight. */
  readonly points: Points
  /** Whether two parts may be in one set. A set is as asked for where every two of its parts may. */
  readonly mayGo?: (i: number, j: number) => boolean
  readonly leftOver: readonly LeftOver[]
}

/** Sorts out who takes part, and where each stands. */
export function placeParts(all: readonly MatchPart[], request: MatchRequest): Placed {
  const sorted = [...all].sort((a, b) => (a.tag < b.tag ? -1 : a.tag > b.tag ? 1 : 0))
  const leftOver: LeftOver[] = []
  const parts = sorted.filter((part) => {
    const why = whyOut(part, request)
    if (why !== undefined) leftOver.push({ tag: part.tag, why })
    return why === undefined
  })
  const d = request.by.length
  const at = Float64Array.from({ length: parts.length * d }, (_, i) => {
    const by = request.by[i % d]!
    return (parts[Math.floor(i / d)]!.values[by.name]! / by.scale) * by.weight
  })
  const mayGo = rule(parts, request)
  const placed = { parts, points: { count: parts.length, dimensions: d, at }, leftOver }
  return mayGo === undefined ? placed : { ...placed, mayGo }
}

function whyOut(part: MatchPart, { by, exclude, reserve }: MatchRequest): string | undefined {
  if (exclude.includes(part.tag)) return 'excluded'
  if (reserve.includes(part.tag)) return 'reserved'
  for (const { name, min, max, within } of by) {
    const x = part.values[name]
    if (x === undefined || !Number.isFinite(x)) return `no ${name}`
    if (min !== undefined && x < min) return `${name} is below ${min}`
    if (max !== undefined && x > max) return `${name} is above ${max}`
    if (within !== undefined && !('absolute' in within) && x <= 0) return `${name} is not above 0, so has no ratio`
  }
  return undefined
}

function rule(
  parts: readonly MatchPart[],
  { by, same, across }: MatchRequest,
): ((i: number, j: number) => boolean) | undefined {
  const bounded = by.filter((one) => one.within !== undefined)
  if (bounded.length === 0 && same.length === 0 && across === undefined) return undefined
  const kind = parts.map((p) => JSON.stringify(same.map((label) => p.labels?.[label] ?? '')))
  const side = parts.map((p) => (across === undefined ? '' : (p.labels?.[across] ?? '')))
  const columns = bounded.map((one) => ({ one, x: parts.map((p) => p.values[one.name]!) }))
  return (i, j) =>
    kind[i] === kind[j] &&
    (across === undefined || side[i] !== side[j]) &&
    columns.every(({ one, x }) => isWithin(one, x[i]!, x[j]!))
}

/** Whether two values are as near as was asked; percent and ratio are of the smaller of the two. */
export function isWithin({ within }: WantedParameter, a: number, b: number): boolean {
  if (within === undefined) return true
  const [low, high] = a < b ? [a, b] : [b, a]
  // a hair wider, so that a difference written out exactly as wide counts
  const slack = 1e-12 * Math.max(Math.abs(low), Math.abs(high))
  if ('absolute' in within) return high - low <= within.absolute + slack
  return high <= low * ('percent' in within ? 1 + within.percent / 100 : within.ratio) + slack
}
