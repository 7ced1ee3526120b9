import { FaultError } from '#core/fault'
import { nearNames } from '#core/text'
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
  /** Number of the labels in which the parts of a set must agree. */
  readonly kinds?: Int32Array
  /** Parts that stay together but are fewer than a set, by any of them. */
  readonly mates?: ReadonlyMap<number, readonly number[]>
  /** Sets that were given: they stay as they are. */
  readonly given: readonly (readonly MatchPart[])[]
  readonly leftOver: readonly LeftOver[]
}

/** Sorts out who takes part, and where each stands. @throws {FaultError} `not-found` for a part that is to stay together */
export function placeParts(all: readonly MatchPart[], request: MatchRequest): Placed {
  const given = givenSets(all, request)
  const isGiven = new Set(given.flat())
  const sorted = all.filter((part) => !isGiven.has(part)).sort((a, b) => (a.tag < b.tag ? -1 : a.tag > b.tag ? 1 : 0))
  const leftOver: LeftOver[] = []
  const leave = (part: MatchPart, why: string | undefined): boolean => {
    if (why !== undefined) leftOver.push({ tag: part.tag, why })
    return why === undefined
  }
  const fit = sorted.filter((part) => leave(part, whyOut(part, request)))
  const out = new Set(leftOver.map((one) => one.tag))
  const parts = fit.filter((part) => leave(part, mateOut(part, request, out)))
  const d = request.by.length
  const at = Float64Array.from({ length: parts.length * d }, (_, i) => {
    const by = request.by[i % d]!
    return (parts[Math.floor(i / d)]!.values[by.name]! / by.scale) * by.weight
  })
  const kinds = kindsOf(parts, request)
  const mayGo = rule(parts, request, kinds)
  const mates = matesOf(parts, request)
  return {
    parts,
    points: { count: parts.length, dimensions: d, at },
    leftOver,
    given,
    ...(mayGo === undefined ? {} : { mayGo }),
    ...(kinds === undefined ? {} : { kinds }),
    ...(mates.size === 0 ? {} : { mates }),
  }
}

/** Groups that are whole sets already, their parts in order. */
function givenSets(all: readonly MatchPart[], { together, size }: MatchRequest): readonly (readonly MatchPart[])[] {
  const byTag = new Map(all.map((part) => [part.tag, part]))
  for (const tag of together.flat())
    if (!byTag.has(tag))
      throw new FaultError({
        code: 'not-found',
        what: 'part to keep together',
        name: tag,
        near: nearNames(tag, [...byTag.keys()]),
      })
  return together
    .filter((group) => group.length === size)
    .map((group) => [...group].sort().map((tag) => byTag.get(tag)!))
}

function matesOf(
  parts: readonly MatchPart[],
  { together, size }: MatchRequest,
): ReadonlyMap<number, readonly number[]> {
  const at = new Map(parts.map((part, i) => [part.tag, i]))
  const groups = together
    .filter((group) => group.length < size && group.every((tag) => at.has(tag)))
    .map((group) => group.map((tag) => at.get(tag)!))
  return new Map(groups.flatMap((group) => group.map((i) => [i, group] as const)))
}

/** Whether every part of a set has its mates in it. */
export const hasMates = ({ mates }: Placed, members: readonly number[]): boolean =>
  mates === undefined || members.every((m) => mates.get(m)?.every((mate) => members.includes(mate)) ?? true)

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

function mateOut({ tag }: MatchPart, { together }: MatchRequest, out: ReadonlySet<string>): string | undefined {
  const mate = together.find((group) => group.includes(tag))?.find((other) => out.has(other))
  return mate === undefined ? undefined : `stays together with ${mate}, which is left over`
}

function kindsOf(parts: readonly MatchPart[], { same }: MatchRequest): Int32Array | undefined {
  if (same.length === 0) return undefined
  const numbers = new Map<string, number>()
  return Int32Array.from(parts, (p) => {
    const labels = JSON.stringify(same.map((label) => p.labels?.[label] ?? ''))
    if (!numbers.has(labels)) numbers.set(labels, numbers.size)
    return numbers.get(labels)!
  })
}

function rule(
  parts: readonly MatchPart[],
  { by, across, places }: MatchRequest,
  kinds: Int32Array | undefined,
): ((i: number, j: number) => boolean) | undefined {
  const bounded = places === undefined ? by.filter((one) => one.within !== undefined) : []
  if (bounded.length === 0 && kinds === undefined && across === undefined) return undefined
  const side = parts.map((p) => (across === undefined ? '' : (p.labels?.[across] ?? '')))
  const columns = bounded.map((one) => ({ one, x: parts.map((p) => p.values[one.name]!) }))
  return (i, j) =>
    (kinds === undefined || kinds[i] === kinds[j]) &&
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
