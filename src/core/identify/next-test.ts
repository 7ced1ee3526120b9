import { printPlain } from '#core/quantity'
import { forecast, onScale, type ScaledTrial, stepMiddle } from './forecast.ts'
import { type Hypothesis, kindText } from './hypothesis.ts'
import { gainOf, type Meter } from './meter.ts'
import { type Risk, riskOf } from './risk.ts'
import { orderText } from './say-reading.ts'
import { testWorth } from './test-worth.ts'
import { type ExtraTest, type Trial, turnedRound } from './trial.ts'
import { effortOf, untried } from './untried.ts'
import type { Posterior, Weighed } from './weigh.ts'

/** A test worth taking next, and why. */
export interface NextTest {
  /** Leads counted from 1. */
  readonly plus: number
  readonly minus: number
  readonly joined?: 'plus' | 'minus'
  /** A range of ohms; left out, it is a diode check. */
  readonly range?: string
  /** The part is held between two fingers. */
  readonly warmed?: true
  /** No reading of ohms or of the diode check, but this. */
  readonly test?: ExtraTest
  /** What to mind, so that the part takes no harm. */
  readonly caution?: string
  /** What it is expected to settle, bits: one bit halves the doubt. */
  readonly bits: number
  readonly effort: number
  readonly say: string
  /** What the meter is expected to show under the likeliest answers. */
  readonly expected: readonly { readonly what: string; readonly shows: string; readonly probability: number }[]
}

/** Tests that a person can make beside those of the meter. */
export interface Offers {
  readonly also?: readonly ExtraTest[]
  /** Probability from which an answer is sure. */
  readonly sure?: number
}

/** How sure an answer has to be, where nothing else is said. */
export const sureDefault = 0.99

/** Below this a test is not worth its effort, bits. */
const leastBits = 0.02
/** Tests that one bit of doubt costs, as a rule: what a test is worth beside its chance to settle the answer. */
const testsPerBit = 0.55
/** Hypotheses that are weighed, by how much of the probability they carry, and how many at most. */
const carried = 0.999
const mostCarriers = 60
/** Where many hypotheses are left, tests are rated by the likeliest of them first, and the best of the tests by all. */
const fewHypotheses = 24
const shortList = 10

/** A test that may be offered, and one that was rated. */
interface Allowed {
  readonly put: Trial
  readonly trial: ScaledTrial
  readonly risk: Risk
}
interface Rated extends Allowed {
  readonly bits: number
  readonly worth: number
}

/** The hypotheses that carry nearly all of the probability. */
export function carriers(ranked: readonly Weighed[]): readonly Weighed[] {
  let sum = 0
  return ranked.slice(0, mostCarriers).filter((w) => {
    const isIn = sum < carried
    sum += w.probability
    return isIn
  })
}

/** What a hypothesis has the meter show: the middle of what is expected, or open. */
function expectedText(weighed: Weighed, seen: Posterior['seen'], put: ScaledTrial, meter: Meter): string {
  const { open, from, chance } = forecast(weighed, seen, put, meter)
  if (open > 0.5) return 'open'
  let left = (1 - open) / 2
  const at = chance.findIndex((p) => {
    left -= p
    return left <= 0
  })
  return middleText(stepMiddle(put, from + Math.max(0, at)), put)
}

function middleText(middle: number, { scale }: ScaledTrial): string {
  switch (scale) {
    case 'volts':
      return `about ${middle.toFixed(2)} V`
    case 'ohms':
      return `about ${printPlain(10 ** middle, 'ohm', { digits: 1 })}`
    case 'gain':
      return `h_FE about ${Number(gainOf(middle).toPrecision(1))}`
    case 'breakdown':
      return middle > nothingGivesV ? 'nearly all 12 V' : `about ${middle.toFixed(1)} V`
  }
}

/** Above this nothing gives way on the supply that looks for breakdown, V. */
const nothingGivesV = 11.4

/**
 * The test that brings the answer nearest to being sure for its effort: by how much it is expected to lessen the doubt,
 * and by its chance to settle the matter at once.
 *
 * @returns nothing where no test tells more
 */
export function nextTest(posterior: Posterior, meter: Meter, offers: Offers = {}): NextTest | undefined {
  const { also = [], sure = sureDefault } = offers
  const { ranked, seen } = posterior
  const weighed = carriers(ranked)
  const allowed = untried(posterior, meter).flatMap((put): readonly Allowed[] => {
    const risk = riskOf(put, ranked, also)
    return risk === undefined ? [] : [{ put, trial: onScale(put), risk }]
  })
  const rate = (all: readonly Allowed[], by: readonly Weighed[]): readonly Rated[] =>
    all
      .map(({ put, trial, risk }): Rated => {
        const { bits, settles } = testWorth(by, { seen, trial, meter, sure })
        return { put, trial, risk, bits, worth: testsPerBit * bits + settles - effortOf(put) - risk.weight }
      })
      .sort((a, b) => b.worth - a.worth)
  const isQuick = allowed.length <= shortList || weighed.length <= fewHypotheses
  const short = isQuick ? allowed : rate(allowed, weighed.slice(0, fewHypotheses)).slice(0, shortList)
  const best = rate(short, weighed).find((r) => r.bits >= leastBits)
  if (best === undefined) return undefined
  const { put, trial, bits } = best
  const { caution } = best.risk
  const marked = asMarked(put, meter)
  return {
    plus: marked.plus + 1,
    minus: marked.minus + 1,
    ...(marked.joined === undefined ? {} : { joined: marked.joined }),
    ...(put.range === undefined ? {} : { range: put.range }),
    ...(put.warmed === undefined ? {} : { warmed: put.warmed }),
    ...(put.test === undefined ? {} : { test: put.test }),
    ...(caution === undefined ? {} : { caution }),
    bits,
    effort: effortOf(put),
    say: orderText(marked),
    expected: weighed.slice(0, 3).map((w) => ({
      what: kindOf(w.hypothesis),
      shows: expectedText(w, seen, trial, meter),
      probability: w.probability,
    })),
  }
}

/** Leads by the marks of the meter: on ohms the minus of a needle meter is the positive one. */
const asMarked = (t: Trial, { ohmsReversed }: Meter): Trial =>
  ohmsReversed === true && t.range !== undefined ? turnedRound(t) : t

const kindOf = (h: Hypothesis): string => {
  const leads = h.order.map(
    (e, lead) => `${lead + 1} ${h.named.names?.[h.condition.kind.electrodes[e]!] ?? h.condition.kind.electrodes[e]!}`,
  )
  return `${kindText(h)}, ${leads.join(' ')}`
}
