import type { Conditions } from '#core/device'
import type { Quantity } from '#core/quantity'
import type { LeakagePair } from './leakage-pair.ts'

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
  /** Temperature of the junction while it was read, its own heat counted in; not kept for values brought elsewhere. */
  readonly junction?: Quantity<'degC'>
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
  /** What I_CEO and I_CBO say about each other, where both were read. */
  readonly pair?: LeakagePair
  readonly doubts: readonly Doubt[]
}
