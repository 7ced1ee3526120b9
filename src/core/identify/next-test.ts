import { printPlain } from '#core/quantity'
import { type Hypothesis, kindText, type Put, simulatedPair } from './hypothesis.ts'
import { pairsOf } from './lead-curve.ts'
import { joins } from './likelihood-table.ts'
import type { Meter } from './meter.ts'
import { predict } from './prediction.ts'
import { orderText } from './say-reading.ts'
import type { Posterior, Weighed } from './weigh.ts'

/** A test worth taking next, and why. */
export interface NextTest {
  /** Leads counted from 1. */
  readonly plus: number
  readonly minus: number
  readonly joined?: 'plus' | 'minus'
  /** A range of ohms; left out, it is a diode check. */
  readonly range?: string
  /** What it is expected to settle, bits: one bit halves the doubt. */
  readonly bits: number
  readonly effort: number
  readonly say: string
  /** What the meter is expected to show under the likeliest answers. */
  readonly expected: readonly { readonly what: string; readonly shows: string; readonly probability: number }[]
}

/** A way to put a meter on a part. */
interface Trial extends Put {
  readonly range?: string
}

/**
 * Effort of a diode check, of one for which a resistor joins the third lead, and of a change of range. All tests that
 * are offered are harmless to the kinds known here: 1 mA and some 3 V at most. The low range of a needle meter (100 mA)
 * and its highest (9 V and more) are never offered.
 */
const efforts = { diode: 1, joined: 1.3, range: 1.2 } as const
const effortOf = (t: Trial): number =>
  t.joined !== undefined ? efforts.joined : t.range !== undefined ? efforts.range : efforts.diode

/** Ranges that are worth trying: high enough to see leakage, low enough in voltage to do no harm. */
const rangesTried = ['2M', 'x100', 'x1k']

/** Below this a test is not worth its effort, bits. */
const leastBits = 0.02
/** Hypotheses that are weighed, by how much of the probability they carry. */
const carried = 0.999
/** Width of the steps in which voltages are told apart, V, and how many; the last is open. */
const stepV = 0.04
const stepDecades = 0.1
const steps = 76

/** The chance of each step under a hypothesis, from its imagined parts by their share in what was seen. */
function stepsOf({ hypothesis: h, likelihood }: Weighed, put: Trial, meter: Meter): Float64Array {
  const { chance: drops, y } = predict(h.condition, simulatedPair(h, put), asObserved(put), meter)
  const chance = new Float64Array(steps + 1)
  const total = likelihood.shares.reduce((s, x) => s + x, 0)
  const step = stepOf(put)
  for (let n = 0; n < y.length; n++) {
    const share = likelihood.shares[n]! / total
    if (share < 1e-4) continue
    chance[steps]! += share * (1 - drops[n]!)
    spread(chance, y[n]! / step, share * drops[n]!)
  }
  return chance
}

const asObserved = ({ range }: Trial) =>
  range === undefined ? ({ scale: 'volts' } as const) : ({ scale: 'ohms', range } as const)
const stepOf = ({ range }: Trial): number => (range === undefined ? stepV : stepDecades)

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

/** Ways to put the meter on a part that were not tried. A needle meter has no diode check. */
function untried({ leads, seen }: Posterior, meter: Meter): readonly Trial[] {
  const pairs = pairsOf(leads).map(([plus, minus]): Put => ({ plus, minus }))
  const checks = (leads === 3 ? joins : [undefined]).flatMap((joined) =>
    pairs.map((put): Trial => (joined === undefined ? put : { ...put, joined })),
  )
  const ranges = meter.ohms.filter((r) => rangesTried.includes(r.name))
  const resistances = ranges.flatMap(({ name }) => pairs.map((put): Trial => ({ ...put, range: name })))
  const isTried = (t: Trial): boolean =>
    seen.some((o) => o.range === t.range && o.plus === t.plus && o.minus === t.minus && o.joined === t.joined)
  return [...(meter.ohmsReversed === true ? [] : checks), ...resistances].filter((t) => !isTried(t))
}

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
  const middle = (at + 0.5) * stepOf(put)
  return put.range === undefined
    ? `about ${middle.toFixed(2)} V`
    : `about ${printPlain(10 ** middle, 'ohm', { digits: 1 })}`
}

/**
 * The test that is expected to settle most for its effort (expected information: how much the entropy of the answer is
 * expected to fall).
 *
 * @returns nothing where no test tells more
 * @see D. V. Lindley, On a measure of the information provided by an experiment, Ann. Math. Stat. 27 (1956) 986
 */
export function nextTest(posterior: Posterior, meter: Meter): NextTest | undefined {
  const weighed = carriers(posterior.ranked)
  const rated = untried(posterior, meter).map((put) => {
    const bits = expectedBits(weighed, put, meter)
    return { put, bits, worth: bits / effortOf(put) }
  })
  const best = rated.reduce<(typeof rated)[number] | undefined>(
    (a, b) => (a === undefined || b.worth > a.worth ? b : a),
    undefined,
  )
  if (best === undefined || best.bits < leastBits) return undefined
  const { put, bits } = best
  const marked = asMarked(put, meter)
  return {
    plus: marked.plus + 1,
    minus: marked.minus + 1,
    ...(put.joined === undefined ? {} : { joined: put.joined }),
    ...(put.range === undefined ? {} : { range: put.range }),
    bits,
    effort: effortOf(put),
    say: orderText(marked, put.range),
    expected: weighed.slice(0, 3).map((w) => ({
      what: kindOf(w.hypothesis),
      shows: expectedText(w, put, meter),
      probability: w.probability,
    })),
  }
}

/** Leads by the marks of the meter: on ohms the minus of a needle meter is the positive one. */
const asMarked = (t: Trial, { ohmsReversed }: Meter): Put =>
  ohmsReversed === true && t.range !== undefined ? { ...t, plus: t.minus, minus: t.plus } : t

const kindOf = (h: Hypothesis): string => {
  const leads = h.order.map(
    (e, lead) => `${lead + 1} ${h.named.names?.[h.condition.kind.electrodes[e]!] ?? h.condition.kind.electrodes[e]!}`,
  )
  return `${kindText(h)}, ${leads.join(' ')}`
}
