import type { ExtraTest, Trial } from './trial.ts'
import type { Weighed } from './weigh.ts'

/** What a test may do to the part, and what to mind. */
export interface Risk {
  /** Counts with the effort. */
  readonly weight: number
  readonly caution?: string
}

/** Below this a kind is not likely enough to spare it, probability. */
const unlikely = 0.01
/** Weight of a little gain that may be lost. */
const wornWeight = 2
const none: Risk = { weight: 0 }

/** How likely the part is of a kind that the supply of 12 V harms or wears. */
const chanceOf = (ranked: readonly Weighed[], what: 'harmed' | 'worn'): number =>
  ranked.reduce((sum, w) => (w.hypothesis.condition.kind.at12V === what ? sum + w.probability : sum), 0)

/**
 * What a test may do to the part, by what it may be. Diode checks, ohms on middle ranges and a socket put no more than
 * 3 V and some milliamperes on it. The 12 V that look for breakdown may pierce a gate and a thin germanium emitter: they
 * are never offered while one of these is likely. In a silicon emitter junction 0.1 mA of breakdown costs a little gain
 * at small currents, so they are offered only where they are asked for (common practice, from memory).
 *
 * @param also tests that were asked for beside those of the meter
 * @returns nothing where the test is not to be offered
 */
export function riskOf(t: Trial, ranked: readonly Weighed[], also: readonly ExtraTest[]): Risk | undefined {
  if (t.test === 'gain') return also.includes('gain') ? none : undefined
  if (t.test !== 'breakdown') return none
  if (chanceOf(ranked, 'harmed') >= unlikely) return undefined
  if (chanceOf(ranked, 'worn') < unlikely) return none
  return also.includes('breakdown') ? { weight: wornWeight, caution } : undefined
}

const caution =
  'Take no longer than a second or two: an emitter junction in breakdown loses a little of its gain at small currents.'
