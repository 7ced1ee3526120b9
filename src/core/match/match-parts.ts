import type { LeftOver, MatchAnswer, MatchedSet, Proof } from './answer.ts'
import { type PairedUp, pairUp } from './pair-up.ts'
import { type Placed, placeParts } from './place-parts.ts'
import type { Metric } from './point-tree.ts'
import type { MatchPart, MatchRequest, Objective } from './request.ts'
import { neighbourBound, setCost } from './set-cost.ts'
import { type ProgrammeSolver, setsByProgramme } from './set-programme.ts'
import { surenessOf } from './set-sureness.ts'
import { setsByPlace } from './sets-by-place.ts'
import { setsBySearch } from './sets-by-search.ts'
import { exactlyUpTo, setsExactly } from './sets-exactly.ts'
import { isOneParameter, setsInOrder } from './sets-in-order.ts'

interface Chosen {
  readonly sets: readonly (readonly number[])[]
  /** Cost of each, where it is not that of their distances. */
  readonly costs?: readonly number[]
  /** What no choice of as many sets costs less than; left out, the choice itself is the best. */
  readonly bound?: number
  readonly mostSets: number
}

/**
 * Finds sets of parts that go together: first as many as there can be (or as were asked for), then at the least mismatch
 * in total. The order in which parts come does not matter.
 *
 * @param keepOn asked now and then; where it says false, the best found so far is given with what is proven of it
 * @throws {FaultError} `not-found` for a part that is to stay together with others and is not there
 */
export function matchParts(
  parts: readonly MatchPart[],
  request: MatchRequest,
  keepOn?: (left: number) => boolean,
): MatchAnswer {
  const placed = placeParts(parts, request)
  const left = stillAsked(placed, request)
  return answerOf(placed, left, choose(placed, left, keepOn))
}

/**
 * The same, and sets of three and more out of some dozens of parts are proven as well, by a solver of linear and integer
 * programmes.
 */
export function matchPartsProven(
  parts: readonly MatchPart[],
  request: MatchRequest,
  solve: ProgrammeSolver,
  keepOn?: (left: number) => boolean,
): MatchAnswer {
  const placed = placeParts(parts, request)
  const left = stillAsked(placed, request)
  const first = choose(placed, left, keepOn)
  const isOpen = wayFor(placed, left) === 'search' && keepOn?.(0) !== false
  const better = isOpen ? setsByProgramme(placed, left, first.sets, solve) : undefined
  return answerOf(placed, left, better ?? first)
}

/** The request less the sets that were given. */
const stillAsked = ({ given }: Placed, request: MatchRequest): MatchRequest =>
  request.sets === undefined ? request : { ...request, sets: Math.max(0, request.sets - given.length) }

function answerOf(placed: Placed, request: MatchRequest, chosen: Chosen): MatchAnswer {
  const found = chosen.sets.map((members, i) =>
    setOf(
      members.map((m) => placed.parts[m]!),
      chosen.costs?.[i] ?? setCost(placed.points, members, request.objective),
      request,
      chosen.sets.length,
    ),
  )
  found.sort((a, b) => a.cost - b.cost || (a.tags[0]! < b.tags[0]! ? -1 : 1))
  const given = placed.given.map((set) => ({
    ...setOf(set, costOfGiven(set, request), request, placed.given.length),
    isGiven: true as const,
  }))
  const foundCost = totalOf(found)
  return {
    objective: request.objective,
    sets: [...given, ...found],
    leftOver: [...placed.leftOver, ...overOf(placed, chosen, request)].sort((a, b) => (a.tag < b.tag ? -1 : 1)),
    totalCost: totalOf(given) + foundCost,
    proof: proofOf(foundCost, chosen, given),
  }
}

const totalOf = (sets: readonly MatchedSet[]): number => sets.reduce((sum, one) => sum + one.cost, 0)

/** A given set costs what it would if it had been found. */
function costOfGiven(set: readonly MatchPart[], request: MatchRequest): number {
  const { parts, points } = placeParts(set, { ...request, together: [], exclude: [], reserve: [] })
  if (parts.length < set.length) return 0
  if (request.places !== undefined)
    return setsByPlace(placeParts(set, { ...request, together: [] }), request).costs[0] ?? 0
  return setCost(
    points,
    parts.map((_, i) => i),
    request.objective,
  )
}

/** How sets are found. */
type Way = 'none' | 'places' | 'order' | 'pairs' | 'exact' | 'search'

function wayFor(p: Placed, request: MatchRequest): Way {
  const n = p.points.count
  if (Math.min(request.sets ?? n, Math.floor(n / request.size)) === 0) return 'none'
  if (request.places !== undefined) return 'places'
  if (isOneParameter(p, request)) return 'order'
  if (request.size === 2 && (n > exactlyUpTo || request.sets === undefined)) return 'pairs'
  return n <= exactlyUpTo ? 'exact' : 'search'
}

function choose(p: Placed, request: MatchRequest, keepOn?: (left: number) => boolean): Chosen {
  switch (wayFor(p, request)) {
    case 'none':
      return { sets: [], mostSets: 0 }
    case 'places': {
      const { sets, costs } = setsByPlace(p, request)
      return { sets, costs, mostSets: sets.length }
    }
    case 'order':
      return proven(setsInOrder(p, request))
    case 'pairs':
      return pairs(p, request, keepOn)
    case 'exact':
      return proven(setsExactly(p, request))
    case 'search':
      return searched(p, request, keepOn)
  }
}

const proven = (sets: Chosen['sets']): Chosen => ({ sets, mostSets: sets.length })

function searched(p: Placed, request: MatchRequest, keepOn?: (left: number) => boolean): Chosen {
  const n = p.points.count
  const sets = setsBySearch(p, request, keepOn)
  const bound = neighbourBound(p.points, request.size, sets.length, request.objective)
  return { sets, bound, mostSets: Math.min(request.sets ?? n, Math.floor(n / request.size)) }
}

const metricOf = (objective: Objective): Metric =>
  objective === 'sum-of-ranges' ? 'sum' : objective === 'squared-deviations' ? 'half square' : 'distance'

/** Pairs; where fewer were asked for than there can be, the price of a single part is raised until there are enough. */
function pairs(p: Placed, { objective, sets: asked }: MatchRequest, keepOn?: (left: number) => boolean): Chosen {
  const pair = (singleCost?: number): PairedUp =>
    pairUp({
      points: p.points,
      metric: metricOf(objective),
      ...(p.mayGo === undefined ? {} : { mayPair: p.mayGo }),
      ...(singleCost === undefined ? {} : { singleCost }),
      ...(keepOn === undefined ? {} : { keepOn }),
    })
  const all = pair()
  const most = pairsOf(all)
  if (asked === undefined || asked >= most.length)
    return { sets: most, ...(all.isComplete ? {} : { bound: all.bound }), mostSets: mostOf(all, p, most.length) }
  let low = 0
  let enough = all
  // halving the price of a single part some fifty times leaves nothing between two counts of pairs
  for (let high = all.singleCost, i = 0; i < 50 && pairsOf(enough).length > asked; i++) {
    const middle = (low + high) / 2
    const tried = pair(middle)
    if (pairsOf(tried).length < asked) low = middle
    else {
      high = middle
      enough = tried
    }
  }
  return fewer(p, pairsOf(enough), enough, asked, objective)
}

/** The best of pairs, where ties left more than were asked for; the prices bound any choice of as many. */
function fewer(
  p: Placed,
  found: readonly (readonly number[])[],
  by: PairedUp,
  asked: number,
  objective: Objective,
): Chosen {
  const sets = [...found]
    .sort((a, b) => setCost(p.points, a, objective) - setCost(p.points, b, objective))
    .slice(0, asked)
  return { sets, bound: by.bound - 2 * by.singleCost * (found.length - asked), mostSets: asked }
}

const mostOf = (all: PairedUp, p: Placed, found: number): number =>
  all.isComplete ? found : Math.floor(p.points.count / 2)

function pairsOf({ mate }: PairedUp): readonly (readonly number[])[] {
  const found: number[][] = []
  for (let v = 0; v < mate.length; v++) if (mate[v]! > v) found.push([v, mate[v]!])
  return found
}

function setOf(own: readonly MatchPart[], cost: number, request: MatchRequest, sets: number): MatchedSet {
  const spread = Object.fromEntries(
    request.by.map(({ name }) => {
      const x = own.map((part) => part.values[name]!)
      return [name, Math.max(...x) - Math.min(...x)]
    }),
  )
  const probability = surenessOf(own, request, sets)
  return { tags: own.map((part) => part.tag), cost, spread, ...(probability === undefined ? {} : { probability }) }
}

function overOf(p: Placed, { sets }: Chosen, { sets: asked }: MatchRequest): readonly LeftOver[] {
  const used = new Set(sets.flat())
  const why = sets.length === asked ? 'not needed for the sets asked for' : 'no set left that it could be in'
  return p.parts.flatMap((part, i) => (used.has(i) ? [] : [{ tag: part.tag, why }]))
}

/** A gap below this is that of rounding, as a share, or in the unit of the scales. */
const rounding = 1e-9

function proofOf(totalCost: number, { bound: known, mostSets, sets }: Chosen, given: readonly MatchedSet[]): Proof {
  const bound = Math.max(0, Math.min(totalCost, known ?? totalCost))
  const gap = totalCost - bound > rounding ? (totalCost - bound) / totalCost : 0
  const isBest = gap <= rounding && sets.length === mostSets
  const many =
    sets.length === mostSets
      ? 'There are as many sets as there can be or were asked for'
      : `At most ${mostSets} sets are possible, ${sets.length} were found`
  const least =
    gap <= rounding ? 'no other choice of them costs less' : `no choice costs over ${(100 * gap).toFixed(2)} % less`
  return {
    kind: isBest ? 'optimal' : 'bound',
    bound: bound + totalOf(given),
    gap,
    mostSets: mostSets + given.length,
    say: `${many}, and ${least}${given.length === 0 ? '' : ', the given sets left as they are'}.`,
  }
}
