import { findRoot } from '#core/numeric'

/** Power of a part by the temperature of its junction, W; undefined where it has no operating point. */
export type PowerAt = (junctionC: number) => number | undefined

/** A part that heats itself: where its heat ends, through what, and how much of it there is. */
export interface SelfHeatingPart {
  readonly ambientC: number
  /** Thermal resistance from junction to ambient, K/W. */
  readonly rthKPerW: number
  readonly powerAt: PowerAt
}

/** A junction temperature at which as much heat leaves as comes. */
export interface HeatBalance {
  readonly junctionC: number
  readonly powerW: number
  /** R_th dP/dT_J: what a warming of 1 K brings back, K. */
  readonly loopGain: number
  /** Loop gain below 1: a small warming dies away. */
  readonly isStable: boolean
}

/** The largest resistance that still lets a part come to rest, and the temperature it would rest at. */
export interface HeatFold {
  readonly rthKPerW: number
  readonly junctionC: number
}

/**
 * How a part ends that is switched on at ambient temperature.
 *
 * - `stable`: it comes to rest at `rest`. Points above it are those it must not be brought to: beyond an unstable one it
 *   runs away.
 * - `runaway`: it goes on warming, up to the ceiling; there is no balance for it.
 * - `none`: at the temperature `atC`, on its way, it has no operating point.
 */
export type SelfHeating = (
  | { readonly kind: 'stable'; readonly rest: HeatBalance }
  | { readonly kind: 'runaway' }
  | { readonly kind: 'none'; readonly atC: number }
) & {
  /** Every balance between ambient and ceiling, coolest first. */
  readonly points: readonly HeatBalance[]
  /** Left out where a part below the ceiling would rest with any resistance, or where it was not asked for. */
  readonly fold?: HeatFold
}

export interface SelfHeatingOptions {
  /** Junction temperature beyond which nothing is looked for, degC. */
  readonly ceilingC: number
  /** Distance of the temperatures that are tried first, K. */
  readonly stepK: number
  /** Whether the fold is looked for, which takes as long as the rest. */
  readonly hasFold: boolean
}

export const selfHeatingDefaults = { ceilingC: 200, stepK: 1, hasFold: true } as const satisfies SelfHeatingOptions

/** Step of the slope of power, K. */
const slopeStepK = 0.05

/** Change of power with temperature by central differences and one Richardson step, W/K. */
function powerSlope(powerAt: PowerAt, t: number): number {
  const half = (h: number): number => ((powerAt(t + h) ?? Number.NaN) - (powerAt(t - h) ?? Number.NaN)) / (2 * h)
  return (4 * half(slopeStepK / 2) - half(slopeStepK)) / 3
}

/**
 * Balances of a part that heats itself, T_J = T_A + R_th P(T_J), and its verdict.
 *
 * Temperatures from ambient to the ceiling are tried in steps; between two where the balance changes its sign stands a
 * balance, and where it only comes near, the nearest place is looked at as well, so that two close ones are not missed.
 *
 * @returns the verdict; what a part does at the bench is a result, not a fault
 * @see J. Millman and C. C. Halkias, Integrated Electronics (1972), ch. 9, thermal stability: dP/dT_J < 1 / R_th (from memory)
 * @example selfHeating({ ambientC: 20, rthKPerW: 100, powerAt: () => 0.1 }).kind // 'stable', at 30 degC
 */
export function selfHeating(part: SelfHeatingPart, options: Partial<SelfHeatingOptions> = {}): SelfHeating {
  const { ceilingC, stepK, hasFold } = { ...selfHeatingDefaults, ...options }
  const tried = [...triedTemperatures(part, ceilingC, stepK)]
  const points = [...balancedAt(part, tried)].map((t) => balance(part, t))
  const fold = hasFold ? foldOf(part, tried) : undefined
  const shared = fold === undefined ? { points } : { points, fold }
  const rest = points[0]
  if (rest !== undefined) return { kind: 'stable', rest, ...shared }
  const end = tried.at(-1)
  if (end !== undefined && end.t >= ceilingC) return { kind: 'runaway', ...shared }
  return { kind: 'none', atC: Math.min(ceilingC, part.ambientC + tried.length * stepK), ...shared }
}

/**
 * Where a part comes to rest that is switched on at ambient temperature: the verdict and the rest of `selfHeating`, which
 * looks no further than the coolest balance.
 *
 * @returns the balance; `runaway` and `none` as `selfHeating` has them
 */
export function coolestRest(
  part: SelfHeatingPart,
  { ceilingC, stepK }: Pick<SelfHeatingOptions, 'ceilingC' | 'stepK'>,
): HeatBalance | 'runaway' | 'none' {
  let hottest = Number.NEGATIVE_INFINITY
  function* tried(): Iterable<Tried> {
    for (const one of triedTemperatures(part, ceilingC, stepK)) {
      hottest = one.t
      yield one
    }
  }
  for (const t of balancedAt(part, tried())) return balance(part, t)
  return hottest >= ceilingC ? 'runaway' : 'none'
}

interface Tried {
  readonly t: number
  readonly power: number
}

/** Powers from ambient to the ceiling, as far as there is an operating point. */
function* triedTemperatures({ ambientC, powerAt }: SelfHeatingPart, ceilingC: number, stepK: number): Iterable<Tried> {
  const count = Math.max(0, Math.ceil((ceilingC - ambientC) / stepK))
  for (let k = 0; k <= count; k++) {
    const t = Math.min(ceilingC, ambientC + k * stepK)
    const power = powerAt(t)
    if (power === undefined || !Number.isFinite(power)) return
    yield { t, power }
  }
}

/** Temperatures of balance, coolest first; each is found as soon as the temperatures around it are tried. */
function* balancedAt(part: SelfHeatingPart, tried: Iterable<Tried>): Iterable<number> {
  const { ambientC, rthKPerW, powerAt } = part
  const excess = (t: number): number => ambientC + rthKPerW * (powerAt(t) ?? Number.NaN) - t
  let before: Excess | undefined
  let here: Excess | undefined
  for (const { t, power } of tried) {
    const after = { t, f: ambientC + rthKPerW * power - t }
    if (here === undefined && after.f <= 0) return yield t
    if (before !== undefined && here !== undefined && isDip(before, here, after)) {
      const lowest = dip(part, excess, before, after)
      if (lowest !== undefined) {
        yield findRoot(excess, before.t, lowest)
        yield findRoot(excess, lowest, after.t)
      }
    }
    if (here !== undefined && here.f > 0 !== after.f > 0) yield findRoot(excess, here.t, after.t)
    before = here
    here = after
  }
}

/** How much more heat comes than leaves at a temperature, as a rise, K. */
interface Excess {
  readonly t: number
  readonly f: number
}

/** Whether the excess of heat comes near to nothing and goes away again. */
const isDip = (before: Excess, here: Excess, after: Excess): boolean =>
  before.f > 0 && here.f > 0 && here.f < before.f && here.f <= after.f

/**
 * A temperature between two at which less heat comes than leaves: where their tangents meet, else where the excess is
 * least, R_th dP/dT_J = 1. An excess that is convex stays above its tangents, so that it need not be followed where those
 * meet above nothing.
 */
function dip({ rthKPerW, powerAt }: SelfHeatingPart, excess: (t: number) => number, low: Excess, high: Excess) {
  const slope = (t: number): number => rthKPerW * powerSlope(powerAt, t) - 1
  const [falls, rises] = [slope(low.t), slope(high.t)]
  if (!(falls < 0 && rises > 0)) return undefined
  const meet = (high.f - low.f + falls * low.t - rises * high.t) / (falls - rises)
  if (low.f + falls * (meet - low.t) >= 0) return undefined
  if (excess(meet) < 0) return meet
  const lowest = findRoot(slope, low.t, high.t, { tolerance: 1e-9 })
  return excess(lowest) < 0 ? lowest : undefined
}

function balance({ rthKPerW, powerAt }: SelfHeatingPart, junctionC: number): HeatBalance {
  const loopGain = rthKPerW * powerSlope(powerAt, junctionC)
  return { junctionC, powerW: powerAt(junctionC) ?? Number.NaN, loopGain, isStable: loopGain < 1 }
}

/** The highest (T - T_A) / P(T), where its slope is nothing: P = (T - T_A) dP/dT. */
function foldOf({ ambientC, powerAt }: SelfHeatingPart, tried: readonly Tried[]): HeatFold | undefined {
  const held = tried.map(({ t, power }) => (power > 0 ? (t - ambientC) / power : Number.POSITIVE_INFINITY))
  const top = held.reduce((best, x, k) => (x > held[best]! ? k : best), 0)
  const [before, after] = [tried[top - 1], tried[top + 1]]
  if (before === undefined || after === undefined) return undefined
  const slope = (t: number): number => (powerAt(t) ?? Number.NaN) - (t - ambientC) * powerSlope(powerAt, t)
  if (!(slope(before.t) > 0 && slope(after.t) < 0)) return undefined
  const junctionC = findRoot(slope, before.t, after.t, { tolerance: 1e-9 })
  return { rthKPerW: (junctionC - ambientC) / powerAt(junctionC)!, junctionC }
}
