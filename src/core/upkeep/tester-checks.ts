import { printPlain } from '#core/quantity'
import { type Range, type Supply, scaleOf, sourceOhm, type Tester, type TestOffer, terminalOhm } from '#core/tester'
import { dialShows } from './dial-part.ts'
import { type DrivenBy, needleAt, rangeOf, soundState, stops, type TesterState } from './tester-state.ts'

/** Something a person can look at on a tester without opening it. */
export interface TesterCheck {
  /** Name in commands: a range, `rest`, `open`, `null`, `gain`, a supply. */
  readonly id: string
  readonly kind: 'current' | 'voltage' | 'joined' | 'supply' | 'gain' | 'needle'
  /** What to do, as a sentence. */
  readonly say: string
  /** Whether a part of what is expected is seen, or divisions from where the needle should rest. */
  readonly seen: 'part' | 'divisions'
  /** Standard uncertainty of what a sound tester shows: class, tolerances, reading. */
  readonly u: number
  /** From here on the needle lies at its stop; `seen` as parts. */
  readonly stopAt: number
  readonly see: (s: TesterState) => number
  /** Whether it jumps. */
  readonly isLoose: (s: TesterState) => boolean
}

/** Where on the scale checks let a sound needle stand. */
const aim = 0.8

/** An outside source for ranges the tester's own cells do not reach, V (common practice). */
const outsideV = 12

/** Gain of the good part that stands in the sockets for the null. */
const usualGain = 100

/** What a person reads of a resting needle, in divisions, and of a voltage by a meter, as a part (common practice). */
const readU = { divisions: 0.3, voltage: 0.01 } as const

/** Everything that can be looked at on a needle tester. Empty for testers without a movement. */
export function testerChecks(t: Tester): readonly TesterCheck[] {
  if (t.movement === undefined) return []
  return [
    restCheck(t),
    ...t.ranges.filter(isNeedle).map((r) => (r.measures === 'current' ? currentCheck(t, r) : voltageCheck(t, r))),
    ...joinedChecks(t),
    ...t.supplies.filter((s) => s.kind === 'cells').flatMap((s) => supplyChecks(s)),
    ...openCheck(t),
    ...gainChecks(t),
  ]
}

const isNeedle = (r: Range): boolean => r.circuit.kind !== 'stated' && r.circuit.kind !== 'unknown'

const divisionsOf = (t: Tester): number => scaleOf(t, t.ranges[0]!)?.divisions ?? 100

function restCheck(t: Tester): TesterCheck {
  return {
    id: 'rest',
    kind: 'needle',
    say: 'Supply off, nothing connected: how far the needle is from its zero.',
    seen: 'divisions',
    u: readU.divisions,
    stopAt: Number.POSITIVE_INFINITY,
    see: (s) => s.zero * divisionsOf(t),
    isLoose: () => false,
  }
}

/** How a source is made of a supply of the tester: by supply and tap, since both may ail. */
interface Feed {
  readonly supply: string
  readonly tap: number
  readonly offer?: number
  /** What is put in place of the part, ohm. */
  readonly partOhm: number
}

/** The source a feed makes of a tester as it is. */
function drivenBy(t: Tester, f: Feed): DrivenBy {
  const supply = t.supplies.find((s) => s.id === f.supply)!
  const emfV = supply.taps[f.tap]!
  const series = f.offer === undefined ? 0 : (t.tests[f.offer]!.seriesOhm ?? 0)
  return { emfV, ohm: sourceOhm(supply, emfV) + series + f.partOhm }
}

/** Doubt of a range by itself, as a part of what it should show. */
function rangeU(t: Tester, r: Range): number {
  const tolerance = 'tolerance' in r.circuit ? r.circuit.tolerance : 0
  return Math.hypot(t.movement!.classPercent / 100 / aim, tolerance) / Math.sqrt(3)
}

/** A check of a range by a source; what it should show is what a sound tester does. */
function byNeedle(
  t: Tester,
  o: Pick<TesterCheck, 'id' | 'kind' | 'say' | 'u'> & { readonly range: string },
  source: (t: Tester) => DrivenBy,
): TesterCheck {
  const { range, ...head } = o
  const sound = needleAt(soundState(t), range, source(t))
  return {
    ...head,
    seen: 'part',
    stopAt: (stops.high - 0.01) / sound,
    see: (s) => needleAt(s, range, source(s.tester)) / sound,
    isLoose: (s) => s.loose === 'leads' || s.loose === range,
  }
}

function currentCheck(t: Tester, r: Range): TesterCheck {
  const wanted = aim * r.fullScale
  const inside = terminalOhm(r.circuit, t.movement!.coilOhm) ?? 0
  const feed = feedFor(t, r, wanted, inside)
  if (feed === undefined) {
    const say = `From outside, ${printPlain(wanted, 'A')} through a meter that is known to be right.`
    const source = { emfV: outsideV, ohm: outsideV / wanted - inside }
    return byNeedle(t, { id: r.id, range: r.id, kind: 'current', say, u: rangeU(t, r) }, () => source)
  }
  const supply = t.supplies.find((s) => s.id === feed.supply)!
  const tap = printPlain(supply.taps[feed.tap]!, 'V')
  const say = `${t.tests[feed.offer!]!.reads} from ${supply.id} at ${tap}, ${printPlain(feed.partOhm, 'ohm', { digits: 3 })} in place of the part: ${printPlain(wanted, 'A')} should be shown.`
  const u = Math.hypot(rangeU(t, r), supply.tolerance)
  return byNeedle(t, { id: r.id, range: r.id, kind: 'current', say, u }, (now) => drivenBy(now, feed))
}

/** The lowest tap of its own cells that brings a range to its aim, with a resistor in place of the part. */
function feedFor(t: Tester, r: Range, wanted: number, inside: number): Feed | undefined {
  for (const [offer, o] of t.tests.entries()) {
    const supply = t.supplies.find((s) => s.id === o.supply && s.kind === 'cells')
    if (supply === undefined || !o.ranges.includes(r.id) || wanted > (supply.maxA ?? Number.POSITIVE_INFINITY)) continue
    const ohmAt = (v: number): number => v / wanted - sourceOhm(supply, v) - (o.seriesOhm ?? 0) - inside
    const tap = supply.taps.findIndex((v) => ohmAt(v) > 0)
    if (tap >= 0) return { supply: supply.id, tap, offer, partOhm: ohmAt(supply.taps[tap]!) }
  }
  return undefined
}

/** A voltage range is shown a tap of the cells where one fits it, else a voltage from outside. */
function voltageCheck(t: Tester, r: Range): TesterCheck {
  const head = { id: r.id, range: r.id, kind: 'voltage' } as const
  for (const s of t.supplies.filter((one) => one.kind === 'cells')) {
    const tap = s.taps.findLastIndex((v) => v <= r.fullScale * (1 - 1e-9) && v >= r.fullScale / 2)
    if (tap < 0) continue
    const say = `${printPlain(s.taps[tap]!, 'V')} of ${s.id} on the range.`
    const u = Math.hypot(rangeU(t, r), s.tolerance)
    return byNeedle(t, { ...head, say, u }, (now) => drivenBy(now, { supply: s.id, tap, partOhm: 0 }))
  }
  const say = `From outside, ${printPlain(aim * r.fullScale, 'V')} by a meter that is known to be right.`
  return byNeedle(t, { ...head, say, u: rangeU(t, r) }, () => ({ emfV: aim * r.fullScale, ohm: 0 }))
}

/** One check of each resistor in series, with the leads joined, where the needle then stands on the scale. */
function joinedChecks(t: Tester): readonly TesterCheck[] {
  const done = new Set<string>()
  return t.tests.flatMap((o, offer) => {
    const supply = t.supplies.find((s) => s.id === o.supply && s.kind === 'cells')
    const key = `${o.supply} ${o.seriesOhm}`
    if (supply === undefined || !o.seriesOhm || done.has(key)) return []
    const check = joinedCheck(t, supply, o, offer)
    if (check !== undefined) done.add(key)
    return check === undefined ? [] : [check]
  })
}

function joinedCheck(t: Tester, supply: Supply, o: TestOffer, offer: number): TesterCheck | undefined {
  const tries = supply.taps.flatMap((v, tap) =>
    o.ranges.map((range) => {
      const feed: Feed = { supply: supply.id, tap, offer, partOhm: 0 }
      return { v, range, feed, at: needleAt(soundState(t), range, drivenBy(t, feed)) }
    }),
  )
  const [best] = tries.filter((x) => x.at < 1 && x.at > 0.2).sort((a, b) => b.at - a.at)
  if (best === undefined) return undefined
  const range = rangeOf(t, best.range)
  return byNeedle(
    t,
    {
      id: `joined ${o.reads}`,
      range: best.range,
      kind: 'joined',
      say: `${o.reads} from ${supply.id} at ${printPlain(best.v, 'V')} on ${best.range} with the leads joined: ${printPlain(best.at * range.fullScale, 'A', { digits: 3 })} should be shown.`,
      u: Math.hypot(rangeU(t, range), supply.tolerance, 0.05 / Math.sqrt(3)),
    },
    (now) => drivenBy(now, best.feed),
  )
}

/** Voltage of a set at rest, and under a load, by a meter at its sockets. */
function supplyChecks(supply: Supply): readonly TesterCheck[] {
  const tap = supply.taps.length - 1
  const emfV = supply.taps[tap]!
  const loadA = 0.5 * (supply.maxA ?? 0.1)
  const loadOhm = emfV / loadA
  const at = (t: Tester, ohm: number): number => {
    const now = t.supplies.find((s) => s.id === supply.id)!
    const v = now.taps[tap]!
    return (v * ohm) / (ohm + sourceOhm(now, v))
  }
  const meterOhm = 10e6
  const atRest = (emfV * meterOhm) / (meterOhm + sourceOhm(supply, emfV))
  const loaded = (emfV * loadOhm) / (loadOhm + sourceOhm(supply, emfV))
  const head = { kind: 'supply', seen: 'part', stopAt: Number.POSITIVE_INFINITY, isLoose: () => false } as const
  const u = Math.hypot(supply.tolerance, readU.voltage)
  return [
    {
      ...head,
      id: supply.id,
      say: `Voltage of ${supply.id} at ${printPlain(emfV, 'V')} by a meter, nothing else connected.`,
      u,
      see: (s) => at(s.tester, meterOhm) / atRest,
    },
    {
      ...head,
      id: `${supply.id} loaded`,
      say: `The same with ${printPlain(loadOhm, 'ohm', { digits: 3 })} across it: ${printPlain(loaded, 'V', { digits: 3 })} should be left.`,
      u,
      see: (s) => at(s.tester, loadOhm) / loaded,
    },
  ]
}

interface Sensitive {
  readonly range: Range
  readonly supply: Supply
}

/** The most sensitive current range that runs from the tester's own cells, among tests that read something. */
function mostSensitive(t: Tester, isWanted: (o: TestOffer) => boolean): Sensitive | undefined {
  const all = t.tests.filter(isWanted).flatMap((o) => {
    const supply = t.supplies.find((s) => s.id === o.supply && s.kind === 'cells')
    const ranges = t.ranges.filter((r) => r.measures === 'current' && isNeedle(r) && o.ranges.includes(r.id))
    return supply === undefined ? [] : ranges.map((range) => ({ range, supply }))
  })
  return all.sort((a, b) => a.range.fullScale - b.range.fullScale)[0]
}

/** Needle with nothing but what leaks, in divisions. */
const leaking = (t: Tester, { range, supply }: Sensitive, ohmOf: (s: TesterState) => number) => {
  const emfV = Math.max(...supply.taps)
  return (s: TesterState): number =>
    needleAt(s, range.id, { emfV: 0, ohm: Number.POSITIVE_INFINITY }, emfV / ohmOf(s)) * divisionsOf(t)
}

function openCheck(t: Tester): readonly TesterCheck[] {
  const most = mostSensitive(t, (o) => o.reads !== 'short')
  if (most === undefined) return []
  return [
    {
      id: 'open',
      kind: 'needle',
      say: `Supply ${most.supply.id} on at its highest tap, ${most.range.id}, nothing connected: how far the needle is from its zero.`,
      seen: 'divisions',
      u: readU.divisions,
      stopAt: Number.POSITIVE_INFINITY,
      see: leaking(t, most, (s) => s.leakOhm),
      isLoose: () => false,
    },
  ]
}

function gainChecks(t: Tester): readonly TesterCheck[] {
  if (t.gain.kind !== 'dial') return []
  const gain: TesterCheck = {
    id: 'gain',
    kind: 'gain',
    say: 'Gain of a part whose gain is known, or of known resistors in its place.',
    seen: 'part',
    u: t.gain.tolerance / Math.sqrt(3),
    stopAt: Number.POSITIVE_INFINITY,
    see: (s) => s.dial * dialShows(t, s.tester),
    isLoose: (s) => s.loose === 'dial',
  }
  const most = mostSensitive(t, (o) => o.reads === 'h_FE')
  if (most === undefined) return [gain]
  return [
    gain,
    {
      id: 'null',
      kind: 'needle',
      say: `A good part of gain about ${usualGain} on ${most.range.id}, base current at zero: how far the needle is from its null.`,
      seen: 'divisions',
      u: readU.divisions,
      stopAt: Number.POSITIVE_INFINITY,
      see: leaking(t, most, (s) => 1 / (1 / s.leakOhm + usualGain / s.baseLeakOhm)),
      isLoose: () => false,
    },
  ]
}
