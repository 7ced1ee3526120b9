import { logGamma } from '#core/numeric'
import { type Hypothesis, simulatedPair } from './hypothesis.ts'
import type { Meter } from './meter.ts'
import type { Observation, Scale } from './observation.ts'
import { likelihoods, type Prediction, predict, slip } from './prediction.ts'

/** Density of a reading of which nothing is known: per volt, per decade. */
const anyDensity: Readonly<Record<Scale, number>> = {
  volts: 1 / 3,
  leak: 1 / 8,
  ohms: 1 / 6,
  open: 1,
  gain: 1 / 4,
  breakdown: 1 / 12,
}

/** Likelihood of what was seen under a hypothesis, and the part that each imagined part has in it. */
export interface Likelihood {
  readonly log: number
  readonly shares: Float64Array
}

/** Spread that a few imagined parts leave unknown, by how many there are: standard deviation, V or decades. */
const unknownSpread: Readonly<Record<Scale, readonly [few: number, least: number]>> = {
  volts: [0.06, 0.0008],
  leak: [2.5, 0.06],
  ohms: [1.5, 0.03],
  open: [0, 1],
  gain: [1.5, 0.03],
  breakdown: [2, 0.1],
}

/**
 * Degrees of freedom of a kernel: its tails reach further than those of a normal one, for parts that a table of some
 * dozens does not hold the like of.
 */
const tailDof = 6

/** Readings of another kind than predicted that are still taken for slips. */
const mostSlips = 1

/** Imagined parts less likely than this beside the likeliest do not count. */
const negligible = 1e-3

/**
 * Likelihood of observations under a hypothesis. Each imagined part stands for those around it: a kernel with the
 * shape of the spread of all, so that voltages that go together stay together.
 *
 * @see J. Liu and M. West, in Sequential Monte Carlo Methods in Practice (2001), ch. 10: kernels that keep the variance
 * @see B. W. Silverman, Density Estimation (1986), 4.3.2: the width of kernels
 */
export function likelihoodOf(h: Hypothesis, seen: readonly Observation[], meter: Meter): Likelihood {
  const { draws } = likelihoods
  const predicted = seen.map((o) => predict(h.condition, simulatedPair(h, o), o, meter))
  const shares = new Float64Array(draws)
  if (!mayBe(predicted)) return { log: Number.NEGATIVE_INFINITY, shares }
  const chances = new Float64Array(draws).fill(1)
  for (const p of predicted) for (let n = 0; n < draws; n++) chances[n]! *= p.chance[n]!
  const groups = groupDraws(predicted, chances)
  for (const [mask, members] of groups) addKernels({ seen, predicted, meter, mask, members, chances, shares })
  const sum = shares.reduce((s, x) => s + x, 0)
  if (!(sum > 0)) return { log: Number.NEGATIVE_INFINITY, shares }
  return { log: Math.log(sum / draws), shares }
}

/** Whether some imagined part agrees in kind with all readings but the slips allowed. */
function mayBe(predicted: readonly Prediction[]): boolean {
  for (let n = 0; n < likelihoods.draws; n++) {
    let slips = 0
    for (const p of predicted) if (p.chance[n]! <= slip * 1.01) slips++
    if (slips <= mostSlips) return true
  }
  return false
}

/** Imagined parts by the readings they agree with in kind: a bit for each. */
function groupDraws(predicted: readonly Prediction[], chances: Float64Array): ReadonlyMap<number, number[]> {
  let most = 0
  for (const x of chances) most = Math.max(most, x)
  const groups = new Map<number, number[]>()
  chances.forEach((chance, n) => {
    if (chance < most * negligible) return
    const mask = predicted.reduce((m, p, k) => (p.chance[n]! > slip * 1.01 ? m + 2 ** k : m), 0)
    const group = groups.get(mask)
    if (group === undefined) groups.set(mask, [n])
    else group.push(n)
  })
  return groups
}

interface Kernels {
  readonly seen: readonly Observation[]
  readonly predicted: readonly Prediction[]
  readonly meter: Meter
  readonly mask: number
  readonly members: readonly number[]
  readonly chances: Float64Array
  readonly shares: Float64Array
}

/** Adds the kernel of each member at what was seen to its share. */
function addKernels(k: Kernels): void {
  const isMet = (i: number): boolean => Math.floor(k.mask / 2 ** i) % 2 === 1
  const numbers = k.seen.map((_, i) => i).filter((i) => k.seen[i]!.scale !== 'open' && isMet(i))
  const missed = k.seen.reduce((p, o, i) => (isMet(i) ? p : p * anyDensity[o.scale]), 1)
  const d = numbers.length
  const count = k.members.length
  if (d === 0) {
    for (const n of k.members) k.shares[n]! += k.chances[n]! * missed
    return
  }
  const at = k.members.map((n) =>
    numbers.map((i) => k.predicted[i]!.y[n]! + k.predicted[i]!.perK[n]! * k.seen[i]!.warmerK),
  )
  const mean = numbers.map((_, i) => at.reduce((s, y) => s + y[i]!, 0) / count)
  const width = Math.min(1, (4 / ((d + 2) * count)) ** (1 / (d + 4)))
  const kernel = kernelOf(k, numbers, at, mean, width)
  const scale = logScale(d) - factorInPlace(kernel, d)
  const closer = Math.sqrt(1 - width * width)
  const away = new Float64Array(d)
  at.forEach((y, row) => {
    for (let i = 0; i < d; i++) away[i] = k.seen[numbers[i]!]!.y - (closer * y[i]! + (1 - closer) * mean[i]!)
    const square = squareBehind(kernel, d, away)
    const n = k.members[row]!
    k.shares[n]! += k.chances[n]! * missed * Math.exp(scale - 0.5 * (tailDof + d) * Math.log1p(square / (tailDof - 2)))
  })
}

/** Covariance of a kernel: the spread of the members made narrower, the doubt of few members, the meter's own. */
function kernelOf(
  { seen, meter, members }: Kernels,
  numbers: readonly number[],
  at: readonly (readonly number[])[],
  mean: readonly number[],
  width: number,
): Float64Array {
  const d = numbers.length
  const m = new Float64Array(d * d)
  const count = members.length
  for (const y of at)
    for (let i = 0; i < d; i++)
      for (let j = 0; j <= i; j++)
        m[i * d + j]! += (width * width * (y[i]! - mean[i]!) * (y[j]! - mean[j]!)) / Math.max(1, count - 1)
  for (let i = 0; i < d; i++) {
    const o = seen[numbers[i]!]!
    const [few, least] = unknownSpread[o.scale]
    const own = o.scale === 'volts' ? meter.digitU : meter.decadesU
    m[i * d + i]! += (few / count) ** 2 + least ** 2 + own ** 2
    if (o.scale !== 'volts') continue
    for (let j = 0; j <= i; j++) {
      const other = seen[numbers[j]!]!
      if (other.scale === 'volts') m[i * d + j]! += meter.gainU ** 2 * o.y * other.y
    }
  }
  return m
}

/** Logarithm of the density of Student's t of `d` dimensions and unit covariance, at its middle. */
const logScale = (d: number): number =>
  logGamma((tailDof + d) / 2) - logGamma(tailDof / 2) - 0.5 * d * Math.log((tailDof - 2) * Math.PI)

/** Cholesky factor of the lower triangle, in its place. @returns the logarithm of the root of the determinant */
function factorInPlace(m: Float64Array, d: number): number {
  let log = 0
  for (let i = 0; i < d; i++)
    for (let j = 0; j <= i; j++) {
      let sum = m[i * d + j]!
      for (let k = 0; k < j; k++) sum -= m[i * d + k]! * m[j * d + k]!
      m[i * d + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / m[j * d + j]!
      if (i === j) log += Math.log(m[i * d + j]!)
    }
  return log
}

/** Square of a distance in standard deviations of the kernel; overwrites the distance. */
function squareBehind(factor: Float64Array, d: number, x: Float64Array): number {
  let square = 0
  for (let i = 0; i < d; i++) {
    let sum = x[i]!
    for (let k = 0; k < i; k++) sum -= factor[i * d + k]! * x[k]!
    x[i] = sum / factor[i * d + i]!
    square += x[i]! * x[i]!
  }
  return square
}

/** Likelihood of observations of a part that is none of those that are known. */
export const strangeLikelihood = (seen: readonly Observation[]): number =>
  seen.reduce((log, o) => log + Math.log(anyDensity[o.scale] / 2), 0)
