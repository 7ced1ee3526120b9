import type { Conditions, Limit } from '#core/device'
import type { Quantity } from '#core/quantity'

export type VerdictWord = 'conforms' | 'does not conform' | 'undecided' | 'not comparable'

/** How sure a verdict must be (JCGM 106:2012, clause 8). */
export interface Rule {
  /** `simple` goes by the value alone; `guarded` asks `probability` either way. */
  readonly kind: 'simple' | 'guarded'
  readonly probability: number
}

/** How a probability was worked out. */
export type Method = 'first order' | 'random trials'

/** A parameter held against one published limit. */
export interface Verdict {
  readonly part: string
  readonly symbol: string
  readonly limit: Limit
  /** Symbol of the parameter that was compared: `h_FE0` is a gain with its leakage taken out. */
  readonly parameter?: string
  /** Conditions of the measurement. */
  readonly conditions: Conditions
  readonly verdict: VerdictWord
  /** Probability that the true value meets the limit; left out when not comparable. */
  readonly probability?: number
  readonly method?: Method
  /** The value that was compared, after any carry-over to the limit's condition. */
  readonly compared?: Quantity
  /** How it was carried over, or why it cannot be compared. */
  readonly why: string
  /** What would settle an undecided verdict, or make a comparison possible. */
  readonly settle?: string
  /** Standard uncertainty that would decide, if the value stays; in the unit of the limit. */
  readonly needU?: number
  readonly rule: Rule
  /** Provenance of the limit, as shown. */
  readonly source: string
}
