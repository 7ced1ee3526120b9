import type { Objective } from './request.ts'

export interface MatchedSet {
  readonly tags: readonly string[]
  /** Mismatch by the objective; without unit. */
  readonly cost: number
  /** Largest less smallest value of each parameter, in its own unit. */
  readonly spread: Readonly<Record<string, number>>
  /** Probability that the true values meet the tolerances asked for, where the doubts of the values are known. */
  readonly probability?: number
  /** It was given, not found. */
  readonly isGiven?: true
}

export interface LeftOver {
  readonly tag: string
  readonly why: string
}

/** How far the answer is from the best there can be. */
export interface Proof {
  /** `optimal`: nothing better exists, to rounding. `bound`: nothing is better than the bound. */
  readonly kind: 'optimal' | 'bound'
  /** No choice of as many sets costs less in total. */
  readonly bound: number
  /** How much above the bound the total is, as a share of the total. */
  readonly gap: number
  /** No choice has more sets than this. */
  readonly mostSets: number
  /** The same in one sentence. */
  readonly say: string
}

export interface MatchAnswer {
  readonly objective: Objective
  readonly sets: readonly MatchedSet[]
  readonly leftOver: readonly LeftOver[]
  readonly totalCost: number
  readonly proof: Proof
}
