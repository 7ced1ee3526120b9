import { Random } from '#core/numeric'
import type { Placed } from './place-parts.ts'
import type { MatchRequest } from './request.ts'
import { setCost } from './set-cost.ts'

/** How long the search goes on: exchanges tried for each part. */
const triesPerPart = 400

/**
 * Good sets of many parts: they start as neighbours along the widest parameter and then exchange parts, one for one, as
 * long as that lowers the mismatch. A set in which two parts are too far apart costs more than any that is as asked for,
 * and is given up at the end. The same seed gives the same sets.
 */
export function setsBySearch(
  p: Placed,
  request: MatchRequest,
  keepOn: (left: number) => boolean = () => true,
): readonly (readonly number[])[] {
  const { size, objective, seed } = request
  const n = p.points.count
  const order = alongWidest(p)
  const random = new Random(seed, 'sets')
  const wrong = 2 * setCost(p.points, order, 'sum-of-ranges') * size * size + 1
  const costOf = (members: readonly number[]): number =>
    setCost(p.points, members, objective) + wrong * misfits(p, members)
  const count = Math.floor(n / size)
  const sets = Array.from({ length: count }, (_, i) => order.slice(i * size, (i + 1) * size))
  const spare = order.slice(count * size)
  const costs = sets.map(costOf)
  const tries = triesPerPart * n
  for (let t = 0; t < tries && count > 0; t++) {
    if (t % 4096 === 0 && !keepOn(tries - t)) break
    exchange({ sets, spare, costs, size, costOf }, random)
  }
  const good = sets.map((set, i) => ({ set, cost: costs[i]! })).filter(({ set }) => misfits(p, set) === 0)
  good.sort((a, b) => a.cost - b.cost)
  return good.slice(0, request.sets ?? good.length).map(({ set }) => [...set].sort((a, b) => a - b))
}

interface Searching {
  readonly sets: number[][]
  readonly spare: number[]
  readonly costs: number[]
  readonly size: number
  readonly costOf: (members: readonly number[]) => number
}

/** Tries one exchange: with a set not far along the order, or with a part left over. */
function exchange({ sets, spare, costs, size, costOf }: Searching, random: Random): void {
  const a = random.integer(sets.length)
  const b = random.integer(sets.length + (spare.length > 0 ? 1 : 0))
  if (a === b) return
  const other = sets[b] ?? spare
  const i = random.integer(size)
  const j = random.integer(other.length)
  const mine = sets[a]!
  const before = costs[a]! + (costs[b] ?? 0)
  const [x, y] = [mine[i]!, other[j]!]
  mine[i] = y
  other[j] = x
  const costA = costOf(mine)
  const costB = b < sets.length ? costOf(other) : 0
  if (costA + costB < before) {
    costs[a] = costA
    if (b < sets.length) costs[b] = costB
  } else {
    mine[i] = x
    other[j] = y
  }
}

function misfits(p: Placed, members: readonly number[]): number {
  let count = apartFromMates(p, members)
  if (p.mayGo === undefined) return count
  for (let i = 1; i < members.length; i++) for (let j = 0; j < i; j++) if (!p.mayGo(members[i]!, members[j]!)) count++
  return count
}

function apartFromMates({ mates }: Placed, members: readonly number[]): number {
  if (mates === undefined) return 0
  let count = 0
  for (const m of members) for (const mate of mates.get(m) ?? []) if (!members.includes(mate)) count++
  return count
}

function alongWidest({ points }: Placed): number[] {
  const { count, dimensions: d, at } = points
  const all = Array.from({ length: count }, (_, i) => i)
  let best = 0
  let widest = -1
  for (let k = 0; k < d; k++) {
    const column = all.map((i) => at[i * d + k]!)
    const width = column.reduce((m, x) => Math.max(m, x), -Infinity) - column.reduce((m, x) => Math.min(m, x), Infinity)
    if (width <= widest) continue
    widest = width
    best = k
  }
  return all.sort((i, j) => at[i * d + best]! - at[j * d + best]! || i - j)
}
