import { atTerminals, type Range, type Tester, terminalOhm } from '#core/tester'

/** A tester with something wrong: its description as changed, and what no description holds. */
export interface TesterState {
  readonly tester: Tester
  /** Resistance of the leads to the part, ohm. */
  readonly leadOhm: number
  /** Resistance of switch contacts that feed a range, ohm, by range; of those in series with a shunt the description tells. */
  readonly feedOhm: Readonly<Record<string, number>>
  /** Where the needle rests, as a part of full scale, and whether it moves at all. */
  readonly zero: number
  readonly isStuck: boolean
  /** Resistance from a supply through dirt or damp into the measuring circuit, ohm. */
  readonly leakOhm: number
  /** The same into the base of the part. */
  readonly baseLeakOhm: number
  /** What the gain dial shows, over what it should. */
  readonly dial: number
  /** What jumps when touched: the leads, the dial, or a range. */
  readonly loose?: string
}

/** The tester as its description says. */
export const soundState = (tester: Tester): TesterState => ({
  tester,
  leadOhm: 0,
  feedOhm: {},
  zero: 0,
  isStuck: false,
  leakOhm: Number.POSITIVE_INFINITY,
  baseLeakOhm: Number.POSITIVE_INFINITY,
  dial: 1,
})

/** A source as the terminals of the tester see it. */
export interface DrivenBy {
  readonly emfV: number
  readonly ohm: number
}

/** Beyond the end of the scale, as a part of full scale, the needle lies at its stop; below zero likewise. */
export const stops = { low: -0.05, high: 1.05 } as const

const stopped = (fraction: number): number => Math.min(stops.high, Math.max(stops.low, fraction))

/** Where the needle stands on a range, as a part of full scale, for a source at its terminals and a current leaked in. */
export function needleAt(s: TesterState, rangeId: string, d: DrivenBy, leakedA = 0): number {
  const range = rangeOf(s.tester, rangeId)
  const m = s.tester.movement
  if (m === undefined) return 0
  if (s.isStuck) return s.zero
  const inside = terminalOhm(range.circuit, m.coilOhm) ?? 0
  const leads = s.leadOhm + (s.tester.fuse?.ohm ?? 0)
  const throughA = d.emfV / (d.ohm + leads + (s.feedOhm[rangeId] ?? 0) + inside)
  const full = atTerminals(range.circuit, m.fullScaleA, m.coilOhm) ?? range.fullScale
  const there = range.measures === 'current' ? throughA + leakedA : throughA * inside
  return stopped(s.zero + there / full)
}

export const rangeOf = (t: Tester, id: string): Range => t.ranges.find((r) => r.id === id)!
