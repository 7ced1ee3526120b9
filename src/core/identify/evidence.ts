import { quantile } from '#core/numeric'
import { printPlain } from '#core/quantity'
import { type Hypothesis, kinds, kindText, leadMap, simulatedPair } from './hypothesis.ts'
import { gainOf, type LeadReading, leakFloorA, type Meter } from './meter.ts'
import type { Observation } from './observation.ts'
import { isSlip, predict } from './prediction.ts'
import { electrodesText, pairText, shownText } from './say-reading.ts'
import { type Posterior, type Weighed, weigh } from './weigh.ts'

/** A kind of part that the readings leave no room for, and the reading that speaks most against it. */
export interface RuledOut {
  readonly what: string
  readonly by: string
}

/** Probability below which a kind is ruled out, and before any reading, above which that is worth saying. */
const ruledOutBelow = 1e-3
const worthSaying = 0.01
/** How much more one reading has to say than any other to be named. */
const telling = 3
/** How many times likelier one answer is than another that readings cannot tell from it. */
const tellsApart = 3

/** Why the best answer is the best: what it has each pair of leads show, beside what they showed. */
export function evidenceFor(
  h: Hypothesis,
  posterior: Posterior,
  readings: readonly LeadReading[],
  meter: Meter,
): readonly string[] {
  return posterior.seen.map((o) => {
    const first = readings[o.from[0]!]!
    const times = o.from.length === 1 ? '' : ` (one of ${o.from.length} readings)`
    return `${pairText(first)}: ${shownText(first.shows)}${times}. ${usualText(h, o, meter)}`
  })
}

/** What nine in ten of the imagined parts show where a reading was taken. */
function usualText(h: Hypothesis, o: Observation, meter: Meter): string {
  const where = `${electrodesText(h, o)} of a ${kindText(h)}`
  const { chance, y } = predict(h.condition, simulatedPair(h, o), o, meter)
  const agreeing = [...y].filter((_, n) => !isSlip(chance[n]!))
  const share = agreeing.length / y.length
  if (agreeing.length === 0) return `From ${where} that is not to be expected: it counts as a slip.`
  const seldom = share < 0.5 ? ` (so in ${Math.max(1, Math.round(100 * share))} of 100)` : ''
  if (o.scale === 'open') return `From ${where} that is as it should be${seldom}.`
  const [low, high] = [0.05, 0.95].map((p) => numberText(quantile(agreeing, p), o.scale)) as [string, string]
  const isFloor = o.scale === 'leak' && 10 ** quantile(agreeing, 0.05) < 2 * leakFloorA
  const span = isFloor ? `up to ${high}` : low === high ? low : `${low} to ${high}`
  return `From ${where} ${span} is usual${seldom}.`
}

function numberText(y: number, scale: Observation['scale']): string {
  if (scale === 'volts') return printPlain(y, 'V', { digits: 2 })
  if (scale === 'breakdown') return printPlain(y, 'V', { digits: 2 })
  if (scale === 'gain') return `h_FE ${Number(gainOf(y).toPrecision(2))}`
  if (scale === 'ohms') return printPlain(10 ** y, 'ohm', { digits: 2 })
  return printPlain(Math.max(leakFloorA, 10 ** y), 'A', { digits: 1 })
}

/** The two junctions of a transistor that were read forward: from or to its base, to or from the others. */
function junctionsRead(h: Hypothesis, readings: readonly LeadReading[]) {
  if (h.named.family !== 'BJT' || h.condition.fault !== undefined) return undefined
  const base = h.order.indexOf(h.condition.kind.electrodes.indexOf('B')) + 1
  const read = readings.flatMap(({ plus, minus, joined, shows }) => {
    const [at, other] = h.isTurned ? [minus, plus] : [plus, minus]
    return shows.kind === 'volts' && joined === undefined && at === base ? [{ other, volts: shows.volts }] : []
  })
  const [one, two] = [read[0], read.find((r) => r.other !== read[0]?.other)]
  return one === undefined || two === undefined ? undefined : { base, one, two }
}

/** What both junctions together say: `Leads 1-2 and 1-3 both conduct with 1 positive: 1 is the base of an NPN.` */
export function baseEvidence(h: Hypothesis, readings: readonly LeadReading[]): readonly string[] {
  const found = junctionsRead(h, readings)
  if (found === undefined) return []
  const { base, one, two } = found
  const mV = Math.round(1000 * Math.abs(one.volts - two.volts))
  const more = one.volts > two.volts ? one.other : two.other
  const differ = mV === 0 ? 'alike' : `${mV} mV more to ${more}`
  const sign = h.isTurned ? 'negative' : 'positive'
  return [
    `Leads ${base}-${one.other} and ${base}-${two.other} both conduct with ${base} ${sign}, ${differ}: ${base} is the base of ${h.isTurned ? 'a PNP' : 'an NPN'}.`,
  ]
}

/** How much likelier the best order of the leads is than the next, where both are of one kind. */
export function orderEvidence([best, second]: readonly Weighed[]): readonly string[] {
  if (best === undefined || second === undefined) return []
  if (kindText(best.hypothesis) !== kindText(second.hypothesis) || second.probability < 1e-4) return []
  const order = ({ hypothesis }: Weighed): string =>
    Object.entries(leadMap(hypothesis))
      .map(([lead, name]) => `${lead} ${name}`)
      .join(', ')
  const times = best.probability / second.probability
  const much = times > 20 ? Math.round(times) : Number(times.toPrecision(2))
  return [`The leads as ${order(best)} are ${much} times likelier than as ${order(second)}.`]
}

/** Probability of each kind, whatever its leads. */
function byKind(ranked: readonly Pick<Weighed, 'hypothesis' | 'probability'>[]): ReadonlyMap<string, number> {
  const kinds = new Map<string, number>()
  for (const { hypothesis, probability } of ranked) {
    const what = kindText(hypothesis)
    kinds.set(what, (kinds.get(what) ?? 0) + probability)
  }
  return kinds
}

/** What each reading does: the answer without it, among some of what the part may be. */
const withoutEach = (
  readings: readonly LeadReading[],
  { leads, seen }: Posterior,
  meter: Meter,
  among?: readonly Hypothesis[],
): readonly Posterior[] =>
  seen.map((o) =>
    weigh(
      readings.filter((_, k) => !o.from.includes(k)),
      meter,
      leads,
      among,
    ),
  )

/** Kinds that were likely before and are not now, each with the reading that speaks most against it. */
export function ruledOut(readings: readonly LeadReading[], posterior: Posterior, meter: Meter): readonly RuledOut[] {
  const known = kinds[posterior.leads]
  const now = byKind(posterior.ranked)
  const gone = [...known].filter(([what, { prior }]) => prior >= worthSaying && (now.get(what) ?? 0) <= ruledOutBelow)
  const best = posterior.ranked[0]
  const bestKind = best === undefined ? undefined : kindText(best.hypothesis)
  const among = [...gone.map(([, kind]) => kind), known.get(bestKind ?? '')].flatMap((kind) => kind?.all ?? [])
  const spared = gone.length === 0 ? [] : withoutEach(readings, posterior, meter, among).map((p) => byKind(p.ranked))
  return gone.map(([what]) => {
    const odds = spared.map((kinds) => (kinds.get(what) ?? 0) / (kinds.get(bestKind ?? '') ?? 1))
    const [most = 0, second = 0] = [...odds].sort((a, b) => b - a)
    const k = odds.indexOf(most)
    const isOne = most > telling * second && posterior.seen[k] !== undefined
    const reading = isOne ? readings[posterior.seen[k]!.from[0]!]! : undefined
    const by = reading === undefined ? 'several readings together' : `${pairText(reading)}: ${shownText(reading.shows)}`
    return { what, by }
  })
}

/** Answers that stay about as likely as the best: what cannot be told apart with these readings. */
export function cannotTell(ranked: readonly Weighed[]): readonly string[] {
  const [best, ...others] = ranked
  if (best === undefined) return []
  return others
    .filter((w) => best.likelihood.log - w.likelihood.log < Math.log(tellsApart) && w.probability > 0.02)
    .slice(0, 5)
    .map((w) => {
      const times = Math.exp(best.likelihood.log - w.likelihood.log)
      const why =
        times < 1.2
          ? 'These readings do not tell them apart; only how common each is does.'
          : `These readings make the first only ${times.toFixed(1)} times likelier.`
      return `${sentenceOf(best.hypothesis)}, or ${sentenceOf(w.hypothesis)}? ${why}`
    })
}

const sentenceOf = (h: Hypothesis): string => {
  const leads = Object.entries(leadMap(h)).map(([lead, name]) => `${lead} ${name}`)
  return `${kindText(h)} (${leads.join(', ')})`
}

/** Where nothing known shows all of it: the reading that stands in the way, or that there is none. */
export function contradiction(
  readings: readonly LeadReading[],
  posterior: Posterior,
  meter: Meter,
): string | undefined {
  if (posterior.strange < 0.5) return undefined
  const without = withoutEach(readings, posterior, meter)
  const least = without.reduce((a, p, k) => (p.strange < without[a]!.strange ? k : a), 0)
  const spared = without[least]
  const said = 'No part that is known here shows all of this.'
  if (spared === undefined || spared.strange > 0.1 || spared.ranked[0] === undefined)
    return `${said} Take the readings again; touch no lead, and let the part rest first.`
  const reading = readings[posterior.seen[least]!.from[0]!]!
  return `${said} Without ${pairText(reading)} (${shownText(reading.shows)}) it would be a ${sentenceOf(spared.ranked[0].hypothesis)}. Take that reading again.`
}
