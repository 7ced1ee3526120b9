import { type Hypothesis, simulatedPair } from './hypothesis.ts'
import { type Kernel, kernelDensities, kernelOf } from './kernel.ts'
import type { Meter } from './meter.ts'
import type { Observation, Scale } from './observation.ts'
import { isSlip, likelihoods, type Prediction, predict } from './prediction.ts'

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
  /** The kernel that has most part in it; left out where no number was seen. */
  readonly kernel?: Kernel
}

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
  if (!mayBe(predicted)) return impossible
  const shares = new Float64Array(draws)
  let sum = 0
  let most = { kernel: undefined as Kernel | undefined, sum: 0 }
  for (const [mask, members] of groupDraws()) {
    const added = addGroup({ seen, predicted, meter, mask, members, shares })
    sum += added.sum
    if (added.sum > most.sum) most = added
  }
  if (!(sum > 0)) return impossible
  return { log: Math.log(sum / draws), shares, ...(most.kernel === undefined ? {} : { kernel: most.kernel }) }
}

const impossible: Likelihood = { log: Number.NEGATIVE_INFINITY, shares: new Float64Array(likelihoods.draws) }

/** For each imagined part: chance of all readings together, a bit for each it agrees with in kind, and its slips. */
const chances = new Float64Array(likelihoods.draws)
const masks = new Float64Array(likelihoods.draws)
const slipCounts = new Uint8Array(likelihoods.draws)

/** Fills them, and says whether some imagined part agrees in kind with all readings but the slips allowed. */
function mayBe(predicted: readonly Prediction[]): boolean {
  if (predicted.filter((p) => p.isSlip).length > mostSlips) return false
  chances.fill(1)
  masks.fill(0)
  slipCounts.fill(0)
  predicted.forEach(({ chance }, k) => {
    const bit = 2 ** k
    for (let n = 0; n < chance.length; n++) {
      chances[n]! *= chance[n]!
      if (isSlip(chance[n]!)) slipCounts[n]!++
      else masks[n]! += bit
    }
  })
  return slipCounts.some((slips) => slips <= mostSlips)
}

/** Imagined parts by the readings they agree with in kind. */
function groupDraws(): ReadonlyMap<number, number[]> {
  let most = 0
  for (const x of chances) most = Math.max(most, x)
  const groups = new Map<number, number[]>()
  for (let n = 0; n < chances.length; n++) {
    if (chances[n]! < most * negligible) continue
    const group = groups.get(masks[n]!)
    if (group === undefined) groups.set(masks[n]!, [n])
    else group.push(n)
  }
  return groups
}

interface Group {
  readonly seen: readonly Observation[]
  readonly predicted: readonly Prediction[]
  readonly meter: Meter
  readonly mask: number
  readonly members: readonly number[]
  readonly shares: Float64Array
}

/** Adds what each member of a group gives to what was seen to its share. */
function addGroup(g: Group): { readonly kernel: Kernel | undefined; readonly sum: number } {
  const isMet = (i: number): boolean => Math.floor(g.mask / 2 ** i) % 2 === 1
  const numbers = g.seen.map((_, i) => i).filter((i) => g.seen[i]!.scale !== 'open' && isMet(i))
  const missed = g.seen.reduce((p, o, i) => (isMet(i) ? p : p * anyDensity[o.scale]), 1)
  const kernel = numbers.length === 0 ? undefined : kernelOf({ ...g, numbers })
  const densities = kernel === undefined ? undefined : kernelDensities(kernel)
  let sum = 0
  g.members.forEach((n, row) => {
    const share = chances[n]! * missed * (densities === undefined ? 1 : densities[row]!)
    g.shares[n]! += share
    sum += share
  })
  return { kernel, sum }
}

/** Likelihood of observations of a part that is none of those that are known. */
export const strangeLikelihood = (seen: readonly Observation[]): number =>
  seen.reduce((log, o) => log + Math.log(anyDensity[o.scale] / 2), 0)
