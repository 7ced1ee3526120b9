import type { Conditions, Limit } from '#core/device'
import type { Quantity } from '#core/quantity'

export type VerdictWord = 'conforms' | 'does not conform' | 'undecided' | 'not comparable'

/** How sure a verdict must be (JCGM 106:2012, clause 8). */
export interface Rule {
  /** `simple` accepts up to even odds; `guarded` asks `probability` either way. */
  readonly kind: 'simple' | 'guarded'
  readonly probability: number
}

/** A parameter held against one published limit. */
export interface Verdict {
  readonly part: string
  readonly symbol: string
  readonly limit: Limit
  /** Conditions of the measurement. */
  readonly conditions: Conditions
  readonly verdict: VerdictWord
  /** Probability that the true value meets the limit; left out when not comparable. */
  readonly probability?: number
  /** The value that was compared, after any carry-over to the limit's condition. */
  readonly compared?: Quantity
  /** How it was carried over, or why it cannot be compared. */
  readonly why: string
  /** What would settle an undecided verdict. */
  readonly settle?: string
  readonly rule: Rule
  /** Provenance of the limit, as shown. */
  readonly source: string
}
