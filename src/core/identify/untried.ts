import type { Put } from './hypothesis.ts'
import { pairsOf } from './lead-curve.ts'
import { joins } from './likelihood-table.ts'
import type { Meter } from './meter.ts'
import type { Observation } from './observation.ts'
import { type Trial, trialKey } from './trial.ts'
import type { Posterior } from './weigh.ts'

/**
 * Effort of a test, in diode checks: what it takes more to join the third lead through a resistor, to change the range, to
 * wait for a part to get warm, to go to a socket, and to a supply with its resistor. What a test may do to the part
 * stands in `riskOf`. The low range of a needle meter (100 mA) and its highest (9 V and more) are never offered.
 */
export function effortOf(t: Trial): number {
  if (t.test !== undefined) return 1 + more[t.test]
  const joined = t.joined === undefined ? 0 : more.joined
  const range = t.range === undefined ? 0 : more.range
  return 1 + joined + range + (t.warmed === true ? more.warmed : 0)
}
const more = { joined: 0.1, range: 0.05, warmed: 0.4, gain: 0.1, breakdown: 0.8 } as const

/** Ranges that are worth trying: high enough to see leakage, low enough in voltage to do no harm. */
const rangesTried = ['2M', 'x100', 'x1k']

/**
 * Ways to test a part that were not tried. A needle meter has no diode check. Before anything is read all leads are alike,
 * and one pair stands for all.
 */
export function untried({ leads, seen }: Posterior, meter: Meter): readonly Trial[] {
  const all = pairsOf(leads).map(([plus, minus]): Put => ({ plus, minus }))
  const pairs = seen.length === 0 ? all.slice(0, 1) : all
  const puts = (leads === 3 ? joins : [undefined]).flatMap((joined) =>
    pairs.map((put): Trial => (joined === undefined ? put : { ...put, joined })),
  )
  const ranges = meter.ohms.filter((r) => rangesTried.includes(r.name))
  const resistances = ranges.flatMap(({ name }) => puts.map((put): Trial => ({ ...put, range: name })))
  const gains = puts.flatMap((t): readonly Trial[] => (t.joined === undefined ? [] : [{ ...t, test: 'gain' }]))
  const breakdowns = pairs.map((put): Trial => ({ ...put, test: 'breakdown' }))
  const tried = new Set(seen.map(trialKey))
  return [
    ...(meter.ohmsReversed === true ? [] : puts),
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
