import type { Quantity } from '#core/quantity'
import type { Later } from './later.ts'

/** A parameter at the conditions of a limit, or as near as it honestly gets. */
export type Carried =
  /** At the limit's conditions. */
  | {
      readonly kind: 'at'
      readonly quantity: Later<Quantity>
      readonly how: readonly Later<string>[]
      readonly distance: number
    }
  /** At the limit's conditions the true value is at least (`lower`) or at most (`upper`) this. */
  | {
      readonly kind: 'lower' | 'upper'
      readonly quantity: Later<Quantity>
      readonly how: readonly Later<string>[]
      readonly distance: number
      /** What is missing for a full comparison, as a sentence. */
      readonly needs: Later<string>
    }
  | { readonly kind: 'not comparable'; readonly why: Later<string>; readonly needs: Later<string> }

/** One change of condition on the way: the value moved, a bound only, or no way at all. */
export interface Stage {
  readonly quantity: Later<Quantity>
  readonly bound?: 'lower' | 'upper'
  readonly how: readonly Later<string>[]
  readonly distance: number
  readonly needs?: Later<string>
}

/** What stops a comparison. */
export interface Stop {
  readonly why: Later<string>
  readonly needs: Later<string>
}

export const isStop = (s: Stage | Stop): s is Stop => 'why' in s

const nothing = (): string => ''

/** Goes on from one change to the next; two bounds that point apart leave nothing to compare. */
export function andThen(s: Stage | Stop, next: (s: Stage) => Stage | Stop): Stage | Stop {
  if (isStop(s)) return s
  const after = next(s)
  if (isStop(after)) return after
  const needs = after.needs ?? s.needs
  if (s.bound !== undefined && after.bound !== undefined && s.bound !== after.bound)
    return { why: () => 'one condition makes it larger and another smaller', needs: needs ?? nothing }
  const bound = after.bound ?? s.bound
  return {
    quantity: after.quantity,
    ...(bound === undefined ? {} : { bound }),
    how: s.how.length === 0 ? after.how : [...s.how, ...after.how],
    distance: s.distance + after.distance,
    ...(needs === undefined ? {} : { needs }),
  }
}

/** The end of the way. */
export function carried(s: Stage | Stop): Carried {
  if (isStop(s)) return { kind: 'not comparable', ...s }
  const { quantity, how, distance, bound, needs } = s
  return bound === undefined
    ? { kind: 'at', quantity, how, distance }
    : { kind: bound, quantity, how, distance, needs: needs ?? nothing }
}
