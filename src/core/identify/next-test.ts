import { printPlain } from '#core/quantity'
import { type Hypothesis, kindText, type Put, simulatedPair } from './hypothesis.ts'
import { pairsOf } from './lead-curve.ts'
import { joins } from './likelihood-table.ts'
import { gainDecades, type Meter } from './meter.ts'
import type { Observation } from './observation.ts'
import { predict } from './prediction.ts'
import { riskOf } from './risk.ts'
import { orderText } from './say-reading.ts'
import { type ExtraTest, type Trial, trialKey } from './trial.ts'
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

/**
 * Effort of a diode check, of one for which a resistor joins the third lead, of a change of range, of waiting for a part
 * to get warm, of a socket, and of a supply with its resistor. What a test may do to the part stands in `riskOf`. The low
 * range of a needle meter (100 mA) and its highest (9 V and more) are never offered.
 */
const efforts = { diode: 1, joined: 1.3, range: 1.2, warmed: 1.6, gain: 1.6, breakdown: 2 } as const
function effortOf(t: Trial): number {
  if (t.test !== undefined) return efforts[t.test]
  if (t.warmed === true) return efforts.warmed
  return t.joined !== undefined ? efforts.joined : t.range !== undefined ? efforts.range : efforts.diode
}

/** Tests that a person can make beside those of the meter. */
export interface Offers {
  readonly also?: readonly ExtraTest[]
}

/** Ranges that are worth trying: high enough to see leakage, low enough in voltage to do no harm. */
const rangesTried = ['2M', 'x100', 'x1k']

/** Below this a test is not worth its effort, bits. */
const leastBits = 0.02
/** Hypotheses that are weighed, by how much of the probability they carry. */
const carried = 0.999
/** Width of the steps in which readings are told apart, V or decades, and how many; the last is open. */
const stepWidth = { volts: 0.04, ohms: 0.1, gain: 0.06, breakdown: 0.2 } as const
const steps = 76

/** The chance of each step under a hypothesis, from its imagined parts by their share in what was seen. */
function stepsOf({ hypothesis: h, likelihood }: Weighed, put: Trial, meter: Meter): Float64Array {
  const { chance: drops, y } = predict(h.condition, simulatedPair(h, put), { ...put, scale: scaleOf(put) }, meter)
  const chance = new Float64Array(steps + 1)
  const total = likelihood.shares.reduce((s, x) => s + x, 0)
  const step = stepWidth[scaleOf(put)]
  const offset = put.test === 'gain' ? leastGainDecades : 0
  for (let n = 0; n < y.length; n++) {
    const share = likelihood.shares[n]! / total
    if (share < 1e-4) continue
    chance[steps]! += share * (1 - drops[n]!)
    spread(chance, (y[n]! - offset) / step, share * drops[n]!)
  }
  return chance
}

/** Least of the scale of gain. */
const leastGainDecades = gainDecades(0)

/** The scale on which a test shows a number. */
const scaleOf = ({ range, test }: Trial): keyof typeof stepWidth & Observation['scale'] =>
  test ?? (range === undefined ? 'volts' : 'ohms')

/** Puts a share on the steps about a place, as parts about the imagined one would lie. */
function spread(chance: Float64Array, place: number, share: number): void {
  const at = Math.min(steps - 2, Math.max(1, Math.floor(place)))
  chance[at]! += 0.5 * share
  chance[at - 1]! += 0.25 * share
  chance[at + 1]! += 0.25 * share
}

const entropy = (chance: Float64Array): number => {
  let bits = 0
  for (const p of chance) if (p > 0) bits -= p * Math.log2(p)
  return bits
}

/** Bits that a test is expected to tell about which hypothesis holds. */
function expectedBits(weighed: readonly Weighed[], put: Trial, meter: Meter): number {
  const mixed = new Float64Array(steps + 1)
  let within = 0
  const sum = weighed.reduce((s, w) => s + w.probability, 0)
  for (const w of weighed) {
    const own = stepsOf(w, put, meter)
    within += (w.probability / sum) * entropy(own)
    for (let k = 0; k <= steps; k++) mixed[k]! += (w.probability / sum) * own[k]!
  }
  return entropy(mixed) - within
}

/** The hypotheses that carry nearly all of the probability. */
function carriers(ranked: readonly Weighed[]): readonly Weighed[] {
  let sum = 0
  return ranked.filter((w) => {
    const isIn = sum < carried
    sum += w.probability
    return isIn
  })
}

/** Ways to test a part that were not tried. A needle meter has no diode check. */
function untried({ leads, seen }: Posterior, meter: Meter): readonly Trial[] {
  const pairs = pairsOf(leads).map(([plus, minus]): Put => ({ plus, minus }))
  const checks = (leads === 3 ? joins : [undefined]).flatMap((joined) =>
    pairs.map((put): Trial => (joined === undefined ? put : { ...put, joined })),
  )
  const ranges = meter.ohms.filter((r) => rangesTried.includes(r.name))
  const resistances = ranges.flatMap(({ name }) => pairs.map((put): Trial => ({ ...put, range: name })))
  const gains = checks.flatMap((t): readonly Trial[] => (t.joined === undefined ? [] : [{ ...t, test: 'gain' }]))
  const breakdowns = pairs.map((put): Trial => ({ ...put, test: 'breakdown' }))
  const tried = new Set(seen.map(trialKey))
  return [
    ...(meter.ohmsReversed === true ? [] : checks),
    ...resistances,
    ...warmable(seen),
    ...gains,
    ...breakdowns,
  ].filter((t) => !tried.has(trialKey(t)))
}

/** What showed resistance on a high range may be read again with the part warm: leakage grows, a resistor does not. */
const warmable = (seen: readonly Observation[]): readonly Trial[] =>
  seen.flatMap(({ plus, minus, scale, range, joined }): readonly Trial[] =>
    scale === 'ohms' && joined === undefined && range !== undefined && rangesTried.includes(range)
      ? [{ plus, minus, range, warmed: true }]
      : [],
  )

/** What a hypothesis has the meter show: the middle of its imagined parts, or open. */
function expectedText(weighed: Weighed, put: Trial, meter: Meter): string {
  const chance = stepsOf(weighed, put, meter)
  if (chance[steps]! > 0.5) return 'open'
  let sum = 0
  const half = (1 - chance[steps]!) / 2
  const at = chance.findIndex((p) => {
    sum += p
    return sum >= half
  })
  return middleText((at + 0.5) * stepWidth[scaleOf(put)], put)
}

function middleText(middle: number, put: Trial): string {
  switch (scaleOf(put)) {
    case 'volts':
      return `about ${middle.toFixed(2)} V`
    case 'ohms':
      return `about ${printPlain(10 ** middle, 'ohm', { digits: 1 })}`
    case 'gain':
      return `h_FE about ${Number((10 ** (middle + leastGainDecades)).toPrecision(1))}`
    case 'breakdown':
      return middle > nothingGivesV ? 'nearly all 12 V' : `about ${middle.toFixed(1)} V`
  }
}

/** Above this nothing gives way on the supply that looks for breakdown, V. */
const nothingGivesV = 11.4

/**
 * The test that is expected to settle most for its effort (expected information: how much the entropy of the answer is
 * expected to fall).
 *
 * @returns nothing where no test tells more
 * @see D. V. Lindley, On a measure of the information provided by an experiment, Ann. Math. Stat. 27 (1956) 986
 */
export function nextTest(posterior: Posterior, meter: Meter, { also = [] }: Offers = {}): NextTest | undefined {
  const weighed = carriers(posterior.ranked)
  const rated = untried(posterior, meter).flatMap((put) => {
    const risk = riskOf(put, posterior.ranked, also)
    if (risk === undefined) return []
    const bits = expectedBits(weighed, put, meter)
    return [{ put, bits, caution: risk.caution, worth: bits / (effortOf(put) + risk.weight) }]
  })
  const best = rated.reduce<(typeof rated)[number] | undefined>(
    (a, b) => (a === undefined || b.worth > a.worth ? b : a),
    undefined,
  )
  if (best === undefined || best.bits < leastBits) return undefined
  const { put, bits, caution } = best
  const marked = asMarked(put, meter)
  return {
    plus: marked.plus + 1,
    minus: marked.minus + 1,
    ...(put.joined === undefined ? {} : { joined: put.joined }),
    ...(put.range === undefined ? {} : { range: put.range }),
    ...(put.warmed === undefined ? {} : { warmed: put.warmed }),
    ...(put.test === undefined ? {} : { test: put.test }),
    ...(caution === undefined ? {} : { caution }),
    bits,
    effort: effortOf(put),
    say: orderText(marked),
    expected: weighed.slice(0, 3).map((w) => ({
      what: kindOf(w.hypothesis),
      shows: expectedText(w, put, meter),
      probability: w.probability,
    })),
  }
}

/** Leads by the marks of the meter: on ohms the minus of a needle meter is the positive one. */
const asMarked = (t: Trial, { ohmsReversed }: Meter): Trial =>
  ohmsReversed === true && t.range !== undefined ? { ...t, plus: t.minus, minus: t.plus } : t

const kindOf = (h: Hypothesis): string => {
  const leads = h.order.map(
    (e, lead) => `${lead + 1} ${h.named.names?.[h.condition.kind.electrodes[e]!] ?? h.condition.kind.electrodes[e]!}`,
  )
  return `${kindText(h)}, ${leads.join(' ')}`
}
