import { normalQuantile } from '#core/numeric'
import type { Put } from './hypothesis.ts'

/** Tests beside what a meter shows between two leads: the gain in a socket, and the voltage at which a junction gives way. */
export const extraTests = ['gain', 'breakdown'] as const
export type ExtraTest = (typeof extraTests)[number]

/** A way to test a part: where the meter is put, and what it is set to; a diode check where nothing is said. */
export interface Trial extends Put {
  /** A range of ohms. */
  readonly range?: string
  /** The part is held between two fingers. */
  readonly warmed?: true
  readonly test?: ExtraTest
}

/** A trial with its ends by the other name: on ohms the minus of a needle meter is the positive one. */
export const turnedRound = (t: Trial): Trial => ({
  ...t,
  plus: t.minus,
  minus: t.plus,
  ...(t.joined === undefined ? {} : { joined: t.joined === 'plus' ? 'minus' : 'plus' }),
})

/** What tells one way to test from another. */
export const trialKey = ({ plus, minus, joined, range, warmed, test }: Trial): string =>
  [plus, minus, joined, range, warmed, test].join()

/** How much warmer a part gets between two fingers, and how much that differs from one to the next, K. */
export const fingersK = { mean: 8, spread: 3 } as const

/** Warmth that one imagined part in a row of `draws` gets, K: spread evenly over what fingers give. */
export const fingersWarmK = (n: number, draws: number): number =>
  fingersK.mean + fingersK.spread * normalQuantile((((n * 37) % draws) + 0.5) / draws)
