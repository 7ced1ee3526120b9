import {
  digitalMeter,
  type LeadReading,
  nextTest,
  type Posterior,
  type SimulatedPart,
  simulatedPart,
  weigh,
} from '#core/identify'

/** Seed of the parts that are tried; the shipped table has another. */
const seed = 2
const meter = digitalMeter
/** One in so many of the parts has two leads. */
const twoLeadsEach = 5
const sure = 0.99
/** Tests after which a person gives up. */
const mostTests = 12

/** Answers that were stated about as sure, and how many of them were right. */
export interface Bin {
  readonly from: number
  readonly to: number
  count: number
  stated: number
  right: number
}

/** How well parts were named with every pair of leads read. */
export interface AllPairs {
  readonly parts: number
  /** Answers that named the part, its fault and its leads; and those right but for the leads. */
  readonly right: number
  readonly rightKind: number
  readonly sure: number
  readonly meanPairs: number
  readonly bins: readonly Bin[]
  /** Milliseconds an answer took. */
  readonly msAnswer: number
}

/** How well parts were named by the tests that were offered, one after the other. */
export interface ByOffers {
  readonly parts: number
  /** Parts of which an answer came to 99 %, the right ones of them, and their mean number of tests. */
  readonly sure: number
  readonly rightWhenSure: number
  readonly meanTests: number
  /** Parts that came to 99 % by all pairs as well; mean number of tests offered, and of pairs, for these. */
  readonly both: number
  readonly bothOffered: number
  readonly bothPairs: number
  /** Milliseconds to choose a test. */
  readonly msOffer: number
}

const edges = [0, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.95, 0.99, 1.0000001]

interface Case {
  readonly leads: 2 | 3
  readonly part: SimulatedPart
}

const cases = (count: number): readonly Case[] =>
  Array.from({ length: count }, (_, n) => {
    const leads = n % twoLeadsEach === 0 ? 2 : 3
    return { leads, part: simulatedPart(seed, n, leads, meter) }
  })

const allPairs = ({ leads, part }: Case): readonly LeadReading[] =>
  Array.from({ length: leads * leads }, (_, k) => ({ plus: Math.floor(k / leads), minus: k % leads }))
    .filter((p) => p.plus !== p.minus)
    .map(part.read)

const best = (p: Posterior): number => p.ranked[0]?.probability ?? 0
const isRight = (p: Posterior, { part }: Case): boolean => p.ranked[0]?.hypothesis === part.truth

/**
 * Names simulated parts, none of them in the shipped table, from all pairs of leads read with a meter's errors.
 *
 * @param clock milliseconds, for the time of an answer
 */
export function nameByAllPairs(count: number, clock: () => number): AllPairs {
  const bins = edges.slice(1).map((to, k): Bin => ({ from: edges[k]!, to, count: 0, stated: 0, right: 0 }))
  const sum = { right: 0, rightKind: 0, sure: 0, pairs: 0, ms: 0 }
  for (const one of cases(count)) {
    const readings = allPairs(one)
    const start = clock()
    const answer = weigh(readings, meter, one.leads)
    sum.ms += clock() - start
    sum.pairs += readings.length
    const { truth } = one.part
    const top = answer.ranked[0]?.hypothesis
    if (top?.condition === truth.condition && top.named === truth.named) sum.rightKind++
    if (best(answer) >= sure) sum.sure++
    const bin = bins.find((b) => best(answer) < b.to)!
    bin.count++
    bin.stated += best(answer)
    if (!isRight(answer, one)) continue
    bin.right++
    sum.right++
  }
  const { right, rightKind } = sum
  return {
    parts: count,
    right,
    rightKind,
    sure: sum.sure,
    meanPairs: sum.pairs / count,
    bins: bins.filter((b) => b.count > 0),
    msAnswer: sum.ms / count,
  }
}

/** Takes the tests that are offered, until the answer is sure or nothing more is offered. */
export function nameByOffers(count: number, clock: () => number): ByOffers {
  const sum = { sure: 0, right: 0, tests: 0, both: 0, bothOffered: 0, bothPairs: 0, offers: 0, ms: 0 }
  for (const one of cases(count)) {
    const readings: LeadReading[] = []
    let answer = weigh(readings, meter, one.leads)
    while (best(answer) < sure && readings.length < mostTests) {
      const start = clock()
      const next = nextTest(answer, meter)
      sum.ms += clock() - start
      sum.offers++
      if (next === undefined) break
      readings.push(one.part.read({ ...next, plus: next.plus - 1, minus: next.minus - 1 }))
      answer = weigh(readings, meter, one.leads)
    }
    if (best(answer) < sure) continue
    sum.sure++
    sum.tests += readings.length
    if (isRight(answer, one)) sum.right++
    const pairs = allPairs(one)
    if (best(weigh(pairs, meter, one.leads)) < sure) continue
    sum.both++
    sum.bothOffered += readings.length
    sum.bothPairs += pairs.length
  }
  const mean = (total: number, of: number): number => total / Math.max(1, of)
  return {
    parts: count,
    sure: sum.sure,
    rightWhenSure: sum.right,
    meanTests: mean(sum.tests, sum.sure),
    both: sum.both,
    bothOffered: mean(sum.bothOffered, sum.both),
    bothPairs: mean(sum.bothPairs, sum.both),
    msOffer: mean(sum.ms, sum.offers),
  }
}
