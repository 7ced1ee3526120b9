import { hasMates, type Placed } from './place-parts.ts'
import type { MatchRequest } from './request.ts'
import { setCost } from './set-cost.ts'

/** Sets that may be, with the cost of each: the members of set i stand from `size * i` on, in order. */
export interface PossibleSets {
  readonly size: number
  readonly count: number
  readonly members: Int32Array
  readonly cost: Float64Array
}

/** Every set that may be; nothing where there are more than a limit. */
export function possibleSets(p: Placed, { size, objective }: MatchRequest, most: number): PossibleSets | undefined {
  const found = new Grown(size)
  const members = new Int32Array(size)
  const mayJoin = (count: number, v: number): boolean => {
    if (p.mayGo === undefined) return true
    for (let i = 0; i < count; i++) if (!p.mayGo(members[i]!, v)) return false
    return true
  }
  /** False where there were too many. */
  const extend = (count: number, from: number): boolean => {
    if (count === size) {
      if (p.mates === undefined || hasMates(p, [...members])) found.add(members, setCost(p.points, members, objective))
      return found.count <= most
    }
    for (let v = from; v <= p.points.count - size + count; v++) {
      if (!mayJoin(count, v)) continue
      members[count] = v
      if (!extend(count + 1, v + 1)) return false
    }
    return true
  }
  return extend(0, 0) ? found.taken() : undefined
}

/** Typed arrays that grow: there may be a million sets. */
class Grown {
  readonly #size: number
  #members: Int32Array
  #cost = new Float64Array(1024)
  count = 0

  constructor(size: number) {
    this.#size = size
    this.#members = new Int32Array(1024 * size)
  }

  add(members: Int32Array, cost: number): void {
    if (this.count === this.#cost.length) this.#grow()
    this.#members.set(members, this.count * this.#size)
    this.#cost[this.count++] = cost
  }

  #grow(): void {
    const members = new Int32Array(2 * this.#members.length)
    members.set(this.#members)
    this.#members = members
    const cost = new Float64Array(2 * this.#cost.length)
    cost.set(this.#cost)
    this.#cost = cost
  }

  taken(): PossibleSets {
    const { count } = this
    return {
      size: this.#size,
      count,
      members: this.#members.subarray(0, count * this.#size),
      cost: this.#cost.subarray(0, count),
    }
  }
}

export const membersOf = ({ members, size }: PossibleSets, set: number): readonly number[] => [
  ...members.subarray(set * size, (set + 1) * size),
]
