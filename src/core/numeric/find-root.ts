import { FaultError } from '#core/fault'

export interface RootOptions {
  /** Absolute tolerance on the root; the relative one is that of a double. */
  readonly tolerance: number
  readonly mostSteps: number
}

export const rootDefaults = { tolerance: 0, mostSteps: 200 } as const satisfies RootOptions

/**
 * Root of a continuous function between two points where it has opposite signs.
 *
 * @param f function of one number
 * @param low one end of the bracket
 * @param high the other end
 * @returns where f crosses zero, within the tolerance or four units in the last place
 * @throws {FaultError} `out-of-domain` where the ends are not finite or do not have opposite signs
 * @see R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, zero
 * @example findRoot((x) => x * x - 2, 0, 2) // 1.4142135623730951
 */
export function findRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  options: Partial<RootOptions> = {},
): number {
  const { tolerance, mostSteps } = { ...rootDefaults, ...options }
  let a = low
  let b = high
  let fa = f(a)
  let fb = f(b)
  if (!((fa <= 0 && fb >= 0) || (fa >= 0 && fb <= 0)))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'bracket of a root',
      value: `${low} to ${high}`,
      allowed: 'two points where the function has opposite signs',
    })
  let c = a
  let fc = fa
  let step = b - a
  let before = step
  for (let i = 0; i < mostSteps; i++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b
      b = c
      c = a
      fa = fb
      fb = fc
      fc = fa
    }
    const near = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance
    const middle = 0.5 * (c - b)
    if (Math.abs(middle) <= near || fb === 0) return b
    const jump = Math.abs(before) < near || Math.abs(fa) <= Math.abs(fb) ? undefined : interpolate(a, b, c, fa, fb, fc)
    const isGood =
      jump !== undefined &&
      Math.abs(jump) < Math.min(Math.abs(0.5 * before), Math.abs(1.5 * middle)) &&
      jump * middle > 0
    before = isGood ? step : middle
    step = isGood ? jump : middle
    a = b
    fa = fb
    b += Math.abs(step) > near ? step : Math.sign(middle) * near
    fb = f(b)
    if (fb > 0 === fc > 0) {
      c = a
      fc = fa
      step = b - a
      before = step
    }
  }
  return b
}

/** Secant step where two points coincide, else inverse quadratic. */
function interpolate(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const s = fb / fa
  if (a === c) return ((c - b) * s) / (1 - s)
  const q = fa / fc
  const r = fb / fc
  const p = s * ((c - b) * q * (q - r) - (b - a) * (r - 1))
  return -p / ((q - 1) * (r - 1) * (s - 1))
}
