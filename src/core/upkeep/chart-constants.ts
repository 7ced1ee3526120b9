import { FaultError } from '#core/fault'
import { logGamma, normalCdf, normalDensity } from '#core/numeric'

/** Mean and standard deviation of the range, and mean of the standard deviation, of n normal values of spread 1. */
export interface RangeConstants {
  /** Mean range. */
  readonly d2: number
  /** Standard deviation of the range. */
  readonly d3: number
  /** Mean standard deviation. */
  readonly c4: number
}

/** Factors of control charts; those of the range are for averages of ranges, those of `s` for standard deviations. */
export interface ChartConstants extends RangeConstants {
  /** Limits of the mean from the mean range, and from the mean standard deviation. */
  readonly A2: number
  readonly A3: number
  /** Limits of the standard deviation. */
  readonly B3: number
  readonly B4: number
  /** Limits of the range. */
  readonly D3: number
  readonly D4: number
}

const most = 100

const known = new Map<number, RangeConstants>()

/**
 * d2, d3 and c4 for groups of `n` values, by integration; nothing is looked up.
 *
 * @throws {FaultError} `out-of-domain` for n below 2 or above 100
 * @see H. L. Harter, Tables of range and studentized range, Ann. Math. Stat. 31 (1960) 1122-1147
 * @example rangeConstants(5) // { d2: 2.3259, d3: 0.8641, c4: 0.9400 }
 */
export function rangeConstants(n: number): RangeConstants {
  if (!(Number.isInteger(n) && n >= 2 && n <= most))
    throw new FaultError({ code: 'out-of-domain', name: 'values in a group', value: n, allowed: `2 to ${most}` })
  const found = known.get(n) ?? { ...rangeMoments(n), c4: c4Of(n) }
  known.set(n, found)
  return found
}

const c4Of = (n: number): number => Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2))

/** Step of the integrals, and how far out they reach. */
const step = 0.025
const reach = 8
const widest = 14
const places = Math.round((2 * reach) / step) + 1
const below: readonly number[] = Array.from({ length: places + Math.round(widest / step) }, (_, i) =>
  normalCdf(i * step - reach),
)
const density: readonly number[] = Array.from({ length: places }, (_, i) => normalDensity(i * step - reach))

/**
 * Mean and spread of the range W from P(W > w) = 1 - n times the integral of phi(x) [Phi(x + w) - Phi(x)]^(n-1): the
 * inner integral by the trapezium rule, which is exact to rounding for such a bell, the outer ones by Simpson's.
 */
function rangeMoments(n: number): { readonly d2: number; readonly d3: number } {
  const count = Math.round(widest / step)
  let mean = 0
  let square = 0
  for (let k = 0; k <= count; k++) {
    let inside = 0
    for (let i = 0; i < places; i++) inside += density[i]! * (below[i + k]! - below[i]!) ** (n - 1)
    const beyond = 1 - n * inside * step
    const weight = (k === 0 || k === count ? 1 : k % 2 === 1 ? 4 : 2) * (step / 3)
    mean += weight * beyond
    square += weight * 2 * k * step * beyond
  }
  return { d2: mean, d3: Math.sqrt(square - mean ** 2) }
}

/**
 * All factors for groups of `n` values, with limits at three standard deviations.
 *
 * @see ISO 7870-2:2013 and ASTM E2587, tables of factors; names as there
 */
export function chartConstants(n: number): ChartConstants {
  const { d2, d3, c4 } = rangeConstants(n)
  const ofS = (3 * Math.sqrt(1 - c4 ** 2)) / c4
  const ofR = (3 * d3) / d2
  return {
    d2,
    d3,
    c4,
    A2: 3 / (d2 * Math.sqrt(n)),
    A3: 3 / (c4 * Math.sqrt(n)),
    B3: Math.max(0, 1 - ofS),
    B4: 1 + ofS,
    D3: Math.max(0, 1 - ofR),
    D4: 1 + ofR,
  }
}

/**
 * d2 for a standard deviation taken from the mean of `groups` ranges of `n` values: the root of the mean square of that
 * mean range. For one group it is larger than d2, for many groups it comes down to d2.
 *
 * @see A. J. Duncan, Quality Control and Industrial Statistics, table D3 (d2*); AIAG Measurement Systems Analysis, 4th
 *   ed., appendix C
 */
export function d2Star(n: number, groups: number): number {
  const { d2, d3 } = rangeConstants(n)
  return Math.sqrt(d2 ** 2 + d3 ** 2 / groups)
}
