import type { ModelFit, Variables } from './fit-model.ts'
import { partsOf } from './linear-step.ts'
import { type RobustKind, robustScale, robustSlope, robustWeight } from './robust.ts'
import { squaresOf } from './search.ts'
import type { TrustResult } from './trust-region.ts'

/** Why a parameter was not fitted. */
export interface HeldReason {
  /** Index of the parameter. */
  readonly index: number
  /**
   * `fixed` by the caller, at a `bound`, without any `effect` on what was observed, or not to be told apart `from
   * others`.
   */
  readonly why: 'fixed' | 'bound' | 'no effect' | 'others'
  /** Indices of the parameters it cannot be told apart from. */
  readonly from: readonly number[]
}

interface SpreadInput {
  /** In units of sigma, without robust weights. */
  readonly residuals: Float64Array
  /** Whether sigma is known. */
  readonly isKnown: boolean
  readonly robust: RobustKind
}

type Spread = Pick<ModelFit, 'sd' | 'covariance' | 'fittedCovariance' | 'held' | 'dof'>

/**
 * Below this ratio of the smallest to the largest singular value, slopes being of length 1, parameters are not told
 * apart: slopes by differences are good to about twelve digits.
 */
const leastApart = 1e-11

/** Covariance of the fitted parameters from the slopes at the end, and what had to be held. */
export function spreadOfFit(v: Variables, values: Float64Array, result: TrustResult, input: SpreadInput): Spread {
  const held: HeldReason[] = v.parameters.flatMap((p, index) =>
    p.fixed === true ? [{ index, why: 'fixed' as const, from: [] }] : [],
  )
  const lengths = result.slopes.map((s) => Math.sqrt(squaresOf(s)))
  const longest = Math.max(...lengths, 0)
  const used: number[] = []
  for (const [k, index] of v.free.entries())
    if (!(lengths[k]! > 1e-14 * longest)) held.push({ index, why: 'no effect', from: [] })
    else if (result.atBound[k]) held.push({ index, why: 'bound', from: [] })
    else used.push(k)
  const inverse = inverseOf(result, used, lengths, (k, from) =>
    held.push({ index: v.free[k]!, why: 'others', from: from.map((f) => v.free[f]!) }),
  )
  const dof = input.residuals.length - used.length
  const variance = varianceOf(input, dof, used.length)
  const n = v.parameters.length
  const fitted = Array.from({ length: n }, () => new Array<number>(n).fill(0))
  for (const [a, ka] of used.entries())
    for (const [b, kb] of used.entries()) fitted[v.free[ka]!]![v.free[kb]!] = inverse[a]![b]! * variance
  const inner = v.parameters.map((p, j) => (p.scale === 'log' ? values[j]! : 1))
  const covariance = fitted.map((row, a) => row.map((c, b) => c * inner[a]! * inner[b]!))
  return {
    sd: covariance.map((row, j) => Math.sqrt(row[j]!)),
    covariance,
    fittedCovariance: fitted,
    held,
    dof,
  }
}

/** (J^T J)^-1 of the used columns; columns that cannot be told apart are taken out of `used` one by one. */
function inverseOf(
  result: TrustResult,
  used: number[],
  lengths: readonly number[],
  drop: (k: number, from: readonly number[]) => void,
): number[][] {
  for (let isFirst = true; ; isFirst = false) {
    if (used.length === 0) return []
    const known = isFirst && result.linear?.free.length === used.length ? result.linear : undefined
    const parts = known?.parts ?? partsOf(result.slopes, used, lengths, result.room)
    const units = known?.shape ?? lengths
    const n = used.length
    const most = parts.values.reduce((a, b) => Math.max(a, b), 0)
    const least = parts.values.reduce((at, s, k) => (s < parts.values[at]! ? k : at), 0)
    if (parts.values[least]! > leastApart * most) {
      return used.map((ka, a) =>
        used.map((kb, b) => {
          let sum = 0
          for (let k = 0; k < n; k++) sum += (parts.right[k]![a]! * parts.right[k]![b]!) / parts.values[k]! ** 2
          return sum / (units[ka]! * units[kb]!)
        }),
      )
    }
    // units of the way here may hide what columns of length 1 can tell apart
    if (known !== undefined) continue
    const mixed = parts.right[least]!
    const worst = mixed.reduce((at, x, k) => (Math.abs(x) >= Math.abs(mixed[at]!) ? k : at), 0)
    const from = used.filter((_, k) => k !== worst && Math.abs(mixed[k]!) > 0.05)
    drop(used[worst]!, from)
    used.splice(worst, 1)
  }
}

/**
 * Variance of an observation of unit weight.
 *
 * @see P. Huber, Robust Statistics (1981), 7.6, for the robust rules
 */
function varianceOf({ residuals, isKnown, robust }: SpreadInput, dof: number, fitted: number): number {
  if (robust === 'none') return isKnown ? 1 : dof > 0 ? squaresOf(residuals) / dof : 0
  if (dof <= 0) return isKnown ? 1 : 0
  const scale = isKnown ? 1 : robustScale(residuals, fitted)
  if (scale === 0) return 0
  const n = residuals.length
  let pull = 0
  let slope = 0
  let spread = 0
  for (const r of residuals) {
    pull += (robustWeight(robust, r / scale) * r) ** 2
    slope += robustSlope(robust, r / scale) / n
  }
  for (const r of residuals) spread += (robustSlope(robust, r / scale) - slope) ** 2 / n
  const small = 1 + ((fitted / n) * spread) / slope ** 2
  const observed = ((pull / dof) * small ** 2) / slope ** 2
  return isKnown ? Math.max(1, observed) : observed
}
