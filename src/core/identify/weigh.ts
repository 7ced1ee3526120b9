import { type Hypothesis, hypotheses } from './hypothesis.ts'
import { leakAtV } from './lead-curve.ts'
import { type Likelihood, likelihoodOf, strangeLikelihood } from './likelihood.ts'
import type { LeadReading, Meter } from './meter.ts'
import { type Observation, observe } from './observation.ts'

/** A hypothesis with its probability after the readings. */
export interface Weighed {
  readonly hypothesis: Hypothesis
  readonly probability: number
  readonly likelihood: Likelihood
}

/** What readings say about a part. */
export interface Posterior {
  readonly leads: 2 | 3
  readonly seen: readonly Observation[]
  /** Likeliest first; those of no weight are left out. */
  readonly ranked: readonly Weighed[]
  /** Probability that the part is none of those known here, or that a reading is wrong. */
  readonly strange: number
}

/** Odds that a part is none of those that are known here. */
const strangePrior = 3e-4
/** Hypotheses of a smaller probability are left out. */
const leastKept = 1e-6

/** Leads of a part: three where a reading names the third, else as it is said. */
export const leadsOf = (readings: readonly LeadReading[], said?: number): 2 | 3 =>
  said === 3 || readings.some((r) => r.plus > 2 || r.minus > 2) ? 3 : 2

/**
 * Weighs everything that a part may be by its readings (Bayes' rule): prior odds times the likelihood of all readings
 * together, taken from simulated parts.
 *
 * @param leads how many the part has, where the readings do not name all
 * @param among what it may be, where only some of it is of interest; left out, all that is known
 */
export function weigh(
  readings: readonly LeadReading[],
  meter: Meter,
  leads?: number,
  among?: readonly Hypothesis[],
): Posterior {
  const count = leadsOf(readings, leads)
  const seen = observe(readings, meter, leakAtV)
  const all = (among ?? hypotheses[count]).map((hypothesis) => {
    const likelihood = likelihoodOf(hypothesis, seen, meter)
    return { hypothesis, likelihood, log: Math.log(hypothesis.prior) + likelihood.log }
  })
  const strangeLog = Math.log(strangePrior) + strangeLikelihood(seen)
  const top = all.reduce((most, w) => Math.max(most, w.log), strangeLog)
  const sum = all.reduce((s, w) => s + Math.exp(w.log - top), Math.exp(strangeLog - top))
  const ranked = all
    .map(({ hypothesis, likelihood, log }) => ({ hypothesis, likelihood, probability: Math.exp(log - top) / sum }))
    .filter((w) => w.probability > leastKept)
    .sort((a, b) => b.probability - a.probability)
  return { leads: count, seen, ranked, strange: Math.exp(strangeLog - top) / sum }
}
