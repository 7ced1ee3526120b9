import type { ReadingKind, Supply, Tester, TestOffer } from '#core/tester'
import { say } from './say.ts'
import type { Step } from './sheet.ts'

/** One voltage a test can be fed with. */
export interface Feed {
  readonly supply?: string
  readonly supplyV: number
  /** Resistance between the supply's own voltage and the part, ohm; the meter's is not in it. */
  readonly ohm: number
  /** The part of it that the test puts there, ohm. */
  readonly seriesOhm: number
  readonly maxA: number
  readonly isExternal: boolean
  /** Ids of the ranges the test can be read on with this supply. */
  readonly ranges: readonly string[]
}

/** Lowest voltage asked of an external supply that goes down to nothing, V. */
const gentleExternalV = 1.5

export const offersOf = (tester: Tester, reads: ReadingKind): readonly TestOffer[] =>
  tester.tests.filter((t) => t.reads === reads)

/** Voltages of a supply: its taps, and for an external one whatever is wanted between its ends. */
function voltagesOf(s: Supply, wantedV: readonly number[]): readonly number[] {
  if (s.kind === 'cells') return s.taps
  const high = s.max ?? Math.max(0, ...s.taps)
  const low = (s.min ?? 0) > 0 ? s.min! : Math.min(gentleExternalV, high)
  return [...s.taps, low, ...wantedV.map((v) => Math.min(high, Math.max(low, v)))]
}

function sourceOhm(s: Supply, volt: number): number {
  if (s.kind === 'external') return s.ohmPerCell
  return s.ohmPerCell * (s.cellV > 0 ? Math.max(1, Math.round(volt / s.cellV)) : 1)
}

function feedsOfSupply(tester: Tester, s: Supply, offer: TestOffer, wantedV: readonly number[]): readonly Feed[] {
  const seriesOhm = offer.seriesOhm ?? 0
  return [...new Set(voltagesOf(s, wantedV))]
    .filter((v) => v > 0 && v <= tester.limits.maxVoltageV)
    .map((supplyV) => ({
      supply: s.id,
      supplyV,
      ohm: sourceOhm(s, supplyV) + seriesOhm,
      seriesOhm,
      maxA: Math.min(s.maxA ?? Number.POSITIVE_INFINITY, tester.limits.maxCurrentA),
      isExternal: s.kind === 'external',
      ranges: offer.ranges,
    }))
}

function feedsOfOffer(tester: Tester, offer: TestOffer, wantedV: readonly number[]): readonly Feed[] {
  const seriesOhm = offer.seriesOhm ?? 0
  const { maxVoltageV, maxCurrentA } = tester.limits
  if (tester.supplies.length === 0)
    return [
      { supplyV: maxVoltageV, ohm: seriesOhm, seriesOhm, maxA: maxCurrentA, isExternal: false, ranges: offer.ranges },
    ]
  const used = tester.supplies.filter((s) => offer.supply === undefined || s.id === offer.supply)
  return used.flatMap((s) => feedsOfSupply(tester, s, offer, wantedV))
}

/**
 * Every voltage a test can be fed with, lowest first; cells before an external supply of the same voltage. A test that
 * names no supply takes any; a tester that states no supply is taken at its highest voltage, the worst case.
 *
 * @param wantedV voltages that would be useful, for external supplies
 */
export const feedsOf = (tester: Tester, reads: ReadingKind, wantedV: readonly number[] = []): readonly Feed[] =>
  offersOf(tester, reads)
    .flatMap((o) => feedsOfOffer(tester, o, wantedV))
    .sort((a, b) => a.supplyV - b.supplyV || Number(a.isExternal) - Number(b.isExternal))

/** Current a shorted part would draw, A: what limits it is the resistance on the way, or the tester. */
export const shortA = (feed: Feed, meterOhm = 0): number =>
  feed.ohm + meterOhm > 0 ? Math.min(feed.maxA, feed.supplyV / (feed.ohm + meterOhm)) : feed.maxA

/** The step that sets a feed, where there is one to set. */
export function setFeed(id: string, feed: Feed, why: string): readonly Step[] {
  if (feed.supply === undefined) return []
  const which = feed.isExternal ? 'external supply' : 'supply'
  return [
    {
      kind: 'set',
      id: `${id}-supply`,
      what: 'supply',
      value: feed.supplyV,
      unit: 'V',
      say: `Set the ${which} (${feed.supply}) to ${say(feed.supplyV, 'V')}.`,
      why,
    },
  ]
}

/** Supply of a reading, as the step carries it. */
export const fedBy = (feed: Feed): { readonly supply?: string; readonly supplyV: number } => ({
  ...(feed.supply === undefined ? {} : { supply: feed.supply }),
  supplyV: feed.supplyV,
})
