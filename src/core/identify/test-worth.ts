import { type Forecast, forecast, type ScaledTrial, stepCount } from './forecast.ts'
import type { Meter } from './meter.ts'
import type { Observation } from './observation.ts'
import type { Weighed } from './weigh.ts'

/** What a test is expected to do. */
export interface TestWorth {
  /** How much the entropy of the answer is expected to fall, bits. */
  readonly bits: number
  /** Chance that one answer is sure afterwards. */
  readonly settles: number
}

/** A hypothesis with what a test is expected to show under it. */
interface Share {
  readonly p: number
  readonly f: Forecast
}

const mixed = new Float64Array(stepCount)
const top = new Float64Array(stepCount)

/**
 * What a test is expected to do for the answer, over everything it may show.
 *
 * @param sure probability from which an answer is sure
 * @see D. V. Lindley, On a measure of the information provided by an experiment, Ann. Math. Stat. 27 (1956) 986
 */
export function testWorth(weighed: readonly Weighed[], { seen, trial, meter, sure }: TestOf): TestWorth {
  let sum = 0
  for (const w of weighed) sum += w.probability
  const all = weighed.map((w): Share => ({ p: w.probability / sum, f: forecast(w, seen, trial, meter) }))
  mixed.fill(0)
  top.fill(0)
  let [open, topOpen, slips] = [0, 0, 0]
  for (const { p, f } of all) {
    slips += p * f.slips
    open += p * f.open
    topOpen = Math.max(topOpen, p * f.open)
    for (let k = 0; k < f.chance.length; k++) {
      const share = p * f.chance[k]!
      mixed[f.from + k]! += share
      if (share > top[f.from + k]!) top[f.from + k] = share
    }
  }
  let settles = topOpen > sure * open ? open : 0
  for (let k = 0; k < stepCount; k++) if (top[k]! > sure * (mixed[k]! + slips)) settles += mixed[k]!
  return { bits: bitsOf(all, open, slips), settles }
}

export interface TestOf {
  readonly seen: readonly Observation[]
  readonly trial: ScaledTrial
  readonly meter: Meter
  readonly sure: number
}

/** Below this a chance tells nothing. */
const leastChance = 1e-7

/** Information that a reading carries about the hypotheses; `mixed` holds the chance of each step over all of them. */
function bitsOf(all: readonly Share[], open: number, slips: number): number {
  const logs = new Float64Array(stepCount)
  for (let k = 0; k < stepCount; k++) logs[k] = Math.log2(mixed[k]! + slips)
  let bits = 0
  for (const { p, f } of all) {
    for (let k = 0; k < f.chance.length; k++) {
      const q = f.chance[k]!
      if (q > leastChance) bits += p * q * (Math.log2(q) - logs[f.from + k]!)
    }
    if (f.open > 0) bits += p * f.open * Math.log2(f.open / open)
  }
  return bits
}
