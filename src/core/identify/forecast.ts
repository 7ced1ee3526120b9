import { simulatedPair } from './hypothesis.ts'
import { type Kernel, kernelWidth, ownVariance, solveInPlace } from './kernel.ts'
import { gainDecades, type Meter } from './meter.ts'
import type { Observation } from './observation.ts'
import { type Prediction, predict } from './prediction.ts'
import type { Trial } from './trial.ts'
import type { Weighed } from './weigh.ts'

/** The scale on which a test shows a number. */
const scaleOf = ({ range, test }: Trial): keyof typeof steps => test ?? (range === undefined ? 'volts' : 'ohms')

/** A test with the scale on which it shows a number. */
export type ScaledTrial = Trial & { readonly scale: keyof typeof steps }
export const onScale = (t: Trial): ScaledTrial => ({ ...t, scale: scaleOf(t) })

/** Least of each scale and width of the steps in which readings are told apart, V or decades. */
const steps = {
  volts: { least: 0, width: 0.012 },
  ohms: { least: -1, width: 0.04 },
  gain: { least: gainDecades(0) - 0.1, width: 0.02 },
  breakdown: { least: 0, width: 0.06 },
} as const
/** How many steps there are; what lies beyond counts with the last. */
export const stepCount = 270

/** What a test is expected to show under a hypothesis: chances, all of them together 1. */
export interface Forecast {
  /** Chance of open, and of each step by a slip. */
  readonly open: number
  readonly slips: number
  /** Chance of each step, from a first one on. */
  readonly from: number
  readonly chance: Float64Array
}

/** A number of each step's middle. */
export const stepMiddle = ({ scale }: ScaledTrial, step: number): number => {
  const { least, width } = steps[scale]
  return least + step * width
}

/** Chance that anything else happens than a hypothesis knows of. */
const leastSlip = 2e-4
/** Imagined parts that have less part in what was seen do not count. */
const leastShare = 1e-4
/** An imagined part that shows a number at most so seldom shows it by a slip. */
const seldom = 0.01
/** Standard deviations to which a kernel reaches, and most steps of that. */
const reachSd = 2.7
const mostReach = 60

/**
 * What a test is expected to show if a hypothesis holds, after all that was seen: the imagined parts by their share, each
 * moved by how far the readings so far lie from it and spread by what they leave open (the conditional of a normal kernel).
 */
export function forecast(w: Weighed, seen: readonly Observation[], t: ScaledTrial, meter: Meter): Forecast {
  const { hypothesis: h, likelihood } = w
  const prediction = predict(h.condition, simulatedPair(h, t), t, meter)
  const { kernel, shares } = likelihood
  const near = kernel === undefined ? undefined : behindKernel({ kernel, seen, prediction, t, meter })
  return spread(prediction, shares, near ?? aboutAll(prediction, shares, t, meter), t)
}

/** How far each imagined part is moved, and the variance about it. */
interface Near {
  readonly moved?: Float64Array
  readonly variance: number
}

/** Where no number was seen, the imagined parts stand as they are. */
function aboutAll({ chance, y }: Prediction, shares: Float64Array, t: ScaledTrial, meter: Meter): Near {
  let [count, sum, squares] = [0, 0, 0]
  for (let n = 0; n < y.length; n++) {
    if (chance[n]! <= 0.5 || shares[n] === 0) continue
    count++
    sum += y[n]!
    squares += y[n]! ** 2
  }
  const own = ownVariance({ ...t, y: count === 0 ? 6 : sum / count }, Math.max(1, count), meter)
  if (count < 2) return { variance: own }
  return { variance: kernelWidth(1, count) ** 2 * Math.max(0, (squares - sum ** 2 / count) / (count - 1)) + own }
}

interface Behind {
  readonly kernel: Kernel
  readonly seen: readonly Observation[]
  readonly prediction: Prediction
  readonly t: ScaledTrial
  readonly meter: Meter
}

/** A new number behind those that were seen; nothing where no member of the kernel shows one. */
function behindKernel({ kernel, seen, prediction, t, meter }: Behind): Near | undefined {
  const { numbers, members, at, factor, behind } = kernel
  const { chance, y } = prediction
  const d = numbers.length
  const rows: number[] = []
  for (let row = 0; row < members.length; row++) if (chance[members[row]!]! > 0.5) rows.push(row)
  const count = rows.length
  if (count === 0) return undefined
  const width = kernelWidth(d + 1, count)
  let mean = 0
  for (const row of rows) mean += y[members[row]!]! / count
  const along = new Float64Array(d)
  const read = { ...t, y: mean }
  let variance = ownVariance(read, count, meter)
  const narrow = width ** 2 / Math.max(1, count - 1)
  for (const row of rows) {
    const away = narrow * (y[members[row]!]! - mean)
    variance += away * (y[members[row]!]! - mean)
    for (let i = 0; i < d; i++) along[i]! += away * (at[row * d + i]! - kernel.mean[i]!)
  }
  if (read.scale === 'volts') {
    variance += (meter.gainU * mean) ** 2
    for (let i = 0; i < d; i++) {
      const o = seen[numbers[i]!]!
      if (o.scale === 'volts') along[i]! += meter.gainU ** 2 * o.y * mean
    }
  }
  solveInPlace(factor, d, along)
  let left = variance
  for (const c of along) left -= c * c
  const moved = new Float64Array(y.length)
  const closer = Math.sqrt(1 - width ** 2) - 1
  for (const row of rows) {
    const n = members[row]!
    let move = closer * (y[n]! - mean)
    for (let i = 0; i < d; i++) move += along[i]! * behind[row * d + i]!
    moved[n] = move
  }
  return { moved, variance: Math.max(left, ownVariance(read, Number.POSITIVE_INFINITY, meter)) }
}

/** What imagined parts put on each step, before and after it is spread. */
const heaped = new Float64Array(stepCount)
const whole = new Float64Array(stepCount)

/** The imagined parts by their shares on the steps of a scale, each with its normal kernel. */
function spread(
  { chance, y }: Prediction,
  shares: Float64Array,
  { moved, variance }: Near,
  { scale }: ScaledTrial,
): Forecast {
  const { least, width } = steps[scale]
  let total = 0
  for (const s of shares) total += s
  let [open, slips, first, last] = [0, leastSlip, stepCount, -1]
  for (let n = 0; n < y.length; n++) {
    const share = shares[n]! / total
    if (share < leastShare) continue
    open += share * (1 - chance[n]!)
    if (chance[n]! < seldom) {
      slips += share * chance[n]!
      continue
    }
    const place = Math.round((y[n]! + (moved === undefined ? 0 : moved[n]!) - least) / width)
    const middle = Math.min(stepCount - 1, Math.max(0, place))
    heaped[middle]! += share * chance[n]!
    if (middle < first) first = middle
    if (middle > last) last = middle
  }
  return { open, slips: slips / stepCount, ...widened(first, last, normalTaps(Math.sqrt(variance) / width)) }
}

/** What lies heaped from one step to another, each heap spread by a kernel of which half the taps are given; clears the heaps. */
function widened(first: number, last: number, taps: Float64Array): Pick<Forecast, 'from' | 'chance'> {
  if (last < 0) return { from: 0, chance: none }
  const reach = taps.length - 1
  const [from, to] = [Math.max(0, first - reach), Math.min(stepCount - 1, last + reach)]
  whole.fill(0, from, to + 1)
  for (let k = first; k <= last; k++) {
    const heap = heaped[k]!
    if (heap === 0) continue
    heaped[k] = 0
    const [low, high] = [Math.max(from, k - reach), Math.min(to, k + reach)]
    for (let i = low; i <= high; i++) whole[i]! += heap * taps[i < k ? k - i : i - k]!
  }
  return { from, chance: whole.slice(from, to + 1) }
}
const none = new Float64Array(0)

/** Half of a normal kernel in whole steps, from its middle; the sum of the whole is 1. */
function normalTaps(sd: number): Float64Array {
  const reach = Math.min(mostReach, Math.max(1, Math.ceil(reachSd * sd)))
  const taps = new Float64Array(reach + 1)
  const steep = 0.5 / Math.max(0.15, sd * sd)
  let sum = 0
  for (let k = 0; k <= reach; k++) {
    taps[k] = Math.exp(-steep * k * k)
    sum += k === 0 ? 1 : 2 * taps[k]!
  }
  for (let k = 0; k < taps.length; k++) taps[k]! /= sum
  return taps
}
