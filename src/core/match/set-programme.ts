import type { Placed } from './place-parts.ts'
import { membersOf, type PossibleSets, possibleSets } from './possible-sets.ts'
import type { MatchRequest } from './request.ts'
import { costFromPrices, type SetPrices } from './set-prices.ts'

/** What a solver says of a programme: values of its variables, and the dual price of each row; both by name. */
export interface ProgrammeAnswer {
  readonly isOptimal: boolean
  readonly values: Readonly<Record<string, number>>
  readonly duals: Readonly<Record<string, number>>
}

/** Solves a linear or integer programme in the LP format that such solvers read. */
export type ProgrammeSolver = (programme: string) => ProgrammeAnswer

/** Sets found by a programme. */
export interface ProgrammedSets {
  readonly sets: readonly (readonly number[])[]
  /** No choice of as many sets costs less. */
  readonly bound: number
  /** No choice has more sets. */
  readonly mostSets: number
}

/** Sets to choose from, above which a drawer is left to the search; and columns above which a solver takes too long. */
export const programmeLimits = { sets: 1_000_000, columns: 12_000 } as const

/**
 * The best sets of a drawer that is too large for trying everything, by linear and integer programmes: one variable for
 * a set that may be, one row for a part, which is in one set at most.
 *
 * A first programme without whole numbers, over few of the sets, prices the parts; sets that cost less than their prices
 * are added until there is none. The prices then bound every choice, and a set that costs more above its prices than
 * known sets are above the bound can be in no better choice: the integer programme needs only the rest.
 *
 * @param known sets found otherwise, as many as there can be or fewer
 * @returns nothing where there are too many sets to choose from, or a solver did not come to an end
 * @see M. Conforti, G. Cornuejols, G. Zambelli, Integer Programming (2014), 2.4 (set packing) and 8.2 (column generation)
 */
export function setsByProgramme(
  p: Placed,
  request: MatchRequest,
  known: readonly (readonly number[])[],
  solve: ProgrammeSolver,
): ProgrammedSets | undefined {
  const all = possibleSets(p, request, programmeLimits.sets)
  if (all === undefined) return undefined
  const n = p.points.count
  const asked = Math.min(request.sets ?? n, Math.floor(n / request.size))
  const count = known.length === asked ? asked : mostSets(all, n, asked, solve)
  if (count === undefined) return undefined
  if (count === 0) return { sets: [], bound: 0, mostSets: 0 }
  const indices = new Map(known.length === count ? columnsOf(all, known) : [])
  const start = new Set([...indices.values(), ...cheapest(all, n)])
  const priced = price({ all, n, count, solve }, start)
  if (priced === undefined) return undefined
  const { prices, columns } = priced
  const knownCost =
    known.length === count ? [...indices.values()].reduce((sum, i) => sum + all.cost[i]!, 0) : Number.POSITIVE_INFINITY
  const bound = costFromPrices(all, prices, count)
  return inWholeNumbers({ all, n, count, solve }, { prices, columns, bound, known, knownCost })
}

interface Problem {
  readonly all: PossibleSets
  readonly n: number
  readonly count: number
  readonly solve: ProgrammeSolver
}

function mostSets(all: PossibleSets, n: number, asked: number, solve: ProgrammeSolver): number | undefined {
  if (all.count > programmeLimits.columns) return undefined
  const columns = Array.from({ length: all.count }, (_, i) => i)
  const found = solve(
    programme({ sense: 'Maximize', all, n, columns, count: `<= ${asked}`, isWhole: true, costOf: () => 1 }),
  )
  return found.isOptimal ? chosen(found).length : undefined
}

/** Of each part the cheapest sets it is in. */
function cheapest(all: PossibleSets, n: number): ReadonlySet<number> {
  const each = 24
  const best: number[][] = Array.from({ length: n }, () => [])
  for (let i = 0; i < all.count; i++)
    for (const v of all.members.subarray(i * all.size, (i + 1) * all.size)) {
      const own = best[v]!
      if (own.length === each && all.cost[i]! >= all.cost[own[each - 1]!]!) continue
      if (own.length === each) own.pop()
      let at = own.length
      while (at > 0 && all.cost[own[at - 1]!]! > all.cost[i]!) at--
      own.splice(at, 0, i)
    }
  return new Set(best.flat())
}

/** Numbers of sets among all that may be. */
function columnsOf(all: PossibleSets, sets: readonly (readonly number[])[]): readonly (readonly [string, number])[] {
  const wanted = new Set(sets.map((set) => [...set].sort((a, b) => a - b).join(' ')))
  const found: (readonly [string, number])[] = []
  for (let i = 0; i < all.count; i++) {
    const key = membersOf(all, i).join(' ')
    if (wanted.has(key)) found.push([key, i])
  }
  return found
}

/** At most so many columns are added at once, and so often. */
const growth = { columns: 2000, rounds: 60 } as const

function price(
  { all, n, count, solve }: Problem,
  start: Iterable<number>,
): { readonly prices: SetPrices; readonly columns: ReadonlySet<number> } | undefined {
  const columns = new Set(start)
  for (let round = 0; round < growth.rounds; round++) {
    const programmed = {
      sense: 'Minimize',
      all,
      n,
      columns: [...columns],
      count: `= ${count}`,
      isWhole: false,
    } as const
    const found = solve(programme({ ...programmed, costOf: (i) => all.cost[i]! }))
    if (!found.isOptimal) return undefined
    const prices = pricesOf(found, n)
    const cheap = belowPrices(all, prices, -1e-9).filter((i) => !columns.has(i))
    if (cheap.length === 0) return { prices, columns }
    for (const i of cheap.slice(0, growth.columns)) columns.add(i)
  }
  return undefined
}

const pricesOf = ({ duals }: ProgrammeAnswer, n: number): SetPrices => ({
  // a part in no set may cost nothing: its price is not above 0
  part: Float64Array.from({ length: n }, (_, v) => Math.min(0, duals[`p${v}`] ?? 0)),
  set: duals.count ?? 0,
})

/** Sets that cost less above their prices than a limit, those with the least first. */
function belowPrices(all: PossibleSets, { part, set }: SetPrices, limit: number): number[] {
  const found: (readonly [number, number])[] = []
  for (let i = 0; i < all.count; i++) {
    let over = all.cost[i]! - set
    for (let m = i * all.size; m < (i + 1) * all.size; m++) over -= part[all.members[m]!]!
    if (over < limit) found.push([over, i])
  }
  return found.sort((a, b) => a[0] - b[0] || a[1] - b[1]).map(([, i]) => i)
}

interface Priced {
  readonly prices: SetPrices
  readonly columns: ReadonlySet<number>
  readonly bound: number
  readonly known: readonly (readonly number[])[]
  readonly knownCost: number
}

function inWholeNumbers({ all, n, count, solve }: Problem, q: Priced): ProgrammedSets | undefined {
  const whole = (
    columns: readonly number[],
  ): { readonly sets: readonly number[]; readonly cost: number } | undefined => {
    const asked = { sense: 'Minimize', all, n, columns, count: `= ${count}`, isWhole: true } as const
    const found = solve(programme({ ...asked, costOf: (i) => all.cost[i]! }))
    if (!found.isOptimal) return undefined
    const sets = chosen(found)
    return { sets, cost: sets.reduce((sum, i) => sum + all.cost[i]!, 0) }
  }
  const first = whole([...q.columns].sort((a, b) => a - b))
  const best = Math.min(q.knownCost, first?.cost ?? Number.POSITIVE_INFINITY)
  if (best === Number.POSITIVE_INFINITY) return undefined
  const known = (): readonly (readonly number[])[] =>
    first !== undefined && first.cost <= q.knownCost ? first.sets.map((i) => membersOf(all, i)) : q.known
  const inReach = belowPrices(all, q.prices, best - q.bound + 1e-9)
  if (inReach.length > programmeLimits.columns) return { sets: known(), bound: q.bound, mostSets: count }
  const last = best - q.bound <= 1e-9 * best ? undefined : whole(inReach.sort((a, b) => a - b))
  if (last === undefined) {
    const isBest = best - q.bound <= 1e-9 * best
    return { sets: known(), bound: isBest ? best : q.bound, mostSets: count }
  }
  return { sets: last.sets.map((i) => membersOf(all, i)), bound: last.cost, mostSets: count }
}

/** Numbers of the sets that were taken, in order. */
const chosen = ({ values }: ProgrammeAnswer): readonly number[] =>
  Object.entries(values)
    .flatMap(([name, x]) => (name.startsWith('s') && x > 0.5 ? [Number(name.slice(1))] : []))
    .sort((a, b) => a - b)

interface Programmed {
  readonly sense: 'Minimize' | 'Maximize'
  readonly all: PossibleSets
  readonly n: number
  readonly columns: readonly number[]
  /** The row of the count of sets: how it ends. */
  readonly count: string
  readonly isWhole: boolean
  readonly costOf: (set: number) => number
}

function programme({ sense, all, n, columns, count, isWhole, costOf }: Programmed): string {
  const rows: string[][] = Array.from({ length: n }, () => [])
  for (const i of columns)
    for (const m of all.members.subarray(i * all.size, (i + 1) * all.size)) rows[m]!.push(`s${i}`)
  const names = columns.map((i) => `s${i}`)
  return [
    sense,
    ` total: ${inLines(columns.map((i) => `${costOf(i)} s${i}`))}`,
    'Subject To',
    ...rows.flatMap((row, v) => (row.length === 0 ? [] : [` p${v}: ${inLines(row)} <= 1`])),
    ` count: ${inLines(names)} ${count}`,
    ...(isWhole ? ['Binary', ` ${names.join('\n ')}`] : []),
    'End',
  ].join('\n')
}

/** A sum over as many lines as it needs: the format keeps lines short. */
function inLines(terms: readonly string[]): string {
  const lines: string[] = []
  for (let i = 0; i < terms.length; i += 8) lines.push(terms.slice(i, i + 8).join(' + '))
  return lines.join('\n + ')
}
