import { findRoot } from '#core/numeric'
import type { ThermalPole } from './foster.ts'
import type { PowerAt } from './self-heating.ts'

/** A part that heats itself through a Foster network, cold at the start. */
export interface WarmingPart {
  readonly ambientC: number
  readonly poles: readonly ThermalPole[]
  readonly powerAt: PowerAt
}

export interface HeatingOptions {
  /** Error allowed in a step, K. */
  readonly toleranceK: number
  /** Steps after which it gives up. */
  readonly mostSteps: number
}

export const heatingDefaults = { toleranceK: 1e-7, mostSteps: 100_000 } as const satisfies HeatingOptions

/** Rises of the poles and the power they lead to. */
interface State {
  readonly rises: readonly number[]
  readonly junctionC: number
  readonly power: number
}

function stateOf({ ambientC, powerAt }: WarmingPart, rises: readonly number[]): State | undefined {
  const junctionC = ambientC + rises.reduce((a, b) => a + b, 0)
  const power = powerAt(junctionC)
  return power === undefined || !Number.isFinite(power) ? undefined : { rises, junctionC, power }
}

/**
 * One step: each pole exactly, with a power that goes in a straight line from where it stands to where the step ends,
 * which is found by two corrections.
 */
function step(part: WarmingPart, from: State, seconds: number): State | undefined {
  let end: State | undefined = from
  for (let k = 0; k < 3 && end !== undefined; k++) {
    const rise = end.power - from.power
    const rises = part.poles.map(({ rKPerW, tauS }, p) => {
      const gone = -Math.expm1(-seconds / tauS)
      const late = 1 - (tauS / seconds) * gone
      return from.rises[p]! * (1 - gone) + rKPerW * (from.power * gone + rise * late)
    })
    end = stateOf(part, rises)
  }
  return end
}

/** A step by two halves, sharpened by the whole; its error is how far they are apart. */
function careful(part: WarmingPart, from: State, seconds: number): readonly [State, number] | undefined {
  const whole = step(part, from, seconds)
  const half = step(part, from, seconds / 2)
  const halves = half && step(part, half, seconds / 2)
  if (whole === undefined || halves === undefined) return undefined
  const sharp = stateOf(
    part,
    halves.rises.map((x, k) => x + (x - whole.rises[k]!) / 3),
  )
  return sharp && [sharp, Math.abs(halves.junctionC - whole.junctionC) / 3]
}

/**
 * Goes forward from cold, step by step, until `take` says that it is enough, there is no operating point, or the steps
 * are used up.
 *
 * @param longest the step allowed from a time on, s
 */
function forward(
  part: WarmingPart,
  options: Partial<HeatingOptions>,
  longest: (seconds: number) => number,
  take: (before: readonly [number, State], after: readonly [number, State]) => boolean,
): void {
  const { toleranceK, mostSteps } = { ...heatingDefaults, ...options }
  let here = stateOf(
    part,
    part.poles.map(() => 0),
  )
  let seconds = 0
  let wish = 0.01 * Math.min(...part.poles.map((p) => p.tauS))
  for (let k = 0; k < mostSteps && here !== undefined; k++) {
    const length = Math.min(wish, longest(seconds))
    const [next, error] = careful(part, here, length) ?? [undefined, Number.POSITIVE_INFINITY]
    const fitting = length * Math.min(3, Math.max(0.2, 0.9 * Math.cbrt(toleranceK / error)))
    if (next === undefined || error > toleranceK) {
      wish = fitting
      if (seconds + wish === seconds) return
      continue
    }
    const after = seconds + length
    if (take([seconds, here], [after, next])) return
    here = next
    seconds = after
    wish = length < wish ? Math.max(wish, fitting) : fitting
  }
}

/**
 * Junction temperatures of a part that heats itself, at times after it is switched on cold: each pole of the network by
 * R_k P(T_J) = dT_k + tau_k d(dT_k)/dt, T_J = T_A + sum of dT_k.
 *
 * Steps are exact in the poles and of second order in the power, sharpened by halving; their length follows the error.
 *
 * @param timesS in rising order
 * @returns degC; shorter than the times where the part has no operating point on its way
 * @see S. M. Cox and P. C. Matthews, J. Comput. Phys. 176 (2002), p. 430: exponential time differencing
 * @example heatingCurve({ ambientC: 25, poles: [{ rKPerW: 250, tauS: 8 }], powerAt: () => 0.12 }, [3]) // [34.38]
 */
export function heatingCurve(
  part: WarmingPart,
  timesS: readonly number[],
  options: Partial<HeatingOptions> = {},
): readonly number[] {
  const found: number[] = []
  while (timesS[found.length]! <= 0) found.push(part.ambientC)
  if (found.length === timesS.length) return found
  forward(
    part,
    options,
    (seconds) => timesS[found.length]! - seconds,
    (_, [seconds, state]) => {
      while (timesS[found.length]! <= seconds) found.push(state.junctionC)
      return found.length === timesS.length
    },
  )
  return found
}

/**
 * Time after which a part that heats itself reaches a junction temperature, switched on cold.
 *
 * @param mostS longest time that is looked at
 * @returns s; undefined where it does not come there in that time, or has no operating point on its way
 */
export function timeToReach(
  part: WarmingPart,
  junctionC: number,
  mostS: number,
  options: Partial<HeatingOptions> = {},
): number | undefined {
  if (part.ambientC >= junctionC) return 0
  let found: number | undefined
  forward(
    part,
    options,
    (seconds) => mostS - seconds,
    ([before, from], [after, to]) => {
      if (to.junctionC < junctionC) return after >= mostS
      const over = (length: number): number =>
        (length === 0 ? from.junctionC : (careful(part, from, length)?.[0].junctionC ?? Number.NaN)) - junctionC
      found = before + findRoot(over, 0, after - before, { tolerance: 1e-9 * after })
      return true
    },
  )
  return found
}
