import type { Conditions } from '#core/device'
import type { Quantity } from '#core/quantity'

/** Something odd that the numbers themselves show. */
export interface Doubt {
  readonly code: string
  /** A sentence with what was found and what to do. */
  readonly say: string
  /** `nonsense` makes the parameter unusable for judging; `notice` is for the reader. */
  readonly weight: 'nonsense' | 'notice'
}

/** A parameter of one part: always recomputable from the readings. */
export interface Parameter {
  readonly part: string
  readonly type?: string
  /** Letter symbol: `h_FE`, `I_CEO`. */
  readonly symbol: string
  readonly quantity: Quantity
  /** Where it was measured. */
  readonly conditions: Conditions
  readonly temperatureC: number
  readonly temperatureU: number
  /** Points of the run it comes from. */
  readonly points: readonly number[]
  /** `measured`, or how it was brought elsewhere: `brought to 25 C`. */
  readonly standing: 'measured' | 'brought to 25 C'
  readonly doubts: readonly Doubt[]
}

/** What became of one part: its parameters, or why there are none. */
export interface PartResult {
  readonly part: string
  readonly type?: string
  /** `short` or `open` ends a part's run. */
  readonly state: 'measured' | 'short' | 'open'
  readonly parameters: readonly Parameter[]
  readonly doubts: readonly Doubt[]
}
