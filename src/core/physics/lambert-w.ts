import { FaultError } from '#core/fault'

/** Halley steps on w e^w = x; every start used here is inside its cubic reach. */
function polish(start: number, x: number): number {
  let w = start
  for (let i = 0; i < 20; i++) {
    const e = Math.exp(w)
    const f = w * e - x
    const step = f / (e * (w + 1) - ((w + 2) * f) / (2 * w + 2))
    w -= step
    if (Math.abs(step) <= 2e-16 * Math.abs(w)) break
  }
  return w
}

/**
 * Principal branch of the Lambert W function: the w for which w e^w = x.
 *
 * @param x -1/e or more; where e^y would overflow, use `lambertOfExp(y)`
 * @throws {FaultError} `out-of-domain` below -1/e
 * @see R. M. Corless et al., Adv. Comput. Math. 5 (1996), p. 329
 * @example lambertW(Math.E) // 1
 */
export function lambertW(x: number): number {
  if (!(x >= -1 / Math.E))
    throw new FaultError({ code: 'out-of-domain', name: 'W(x)', value: x, allowed: '-1/e or more' })
  if (x === 0) return 0
  if (x > 3) return lambertOfExp(Math.log(x))
  const p = Math.sqrt(Math.max(0, 2 * (Math.E * x + 1)))
  if (p < 1e-5) return -1 + p - (p * p) / 3
  return polish(
    x < -0.2 ? -1 + p - (p * p) / 3 + (11 / 72) * p ** 3 : Math.log1p(x) * (1 - 0.2 * Math.max(0, x / 3)),
    x,
  )
}

/** A start whose remainder is below this is used: steps from there converge. */
const nearEnough = 0.5

/**
 * W(e^y), without ever forming e^y where it is large: solves w + ln w = y.
 *
 * The steps are of fourth order; the first value is good to a few parts in a hundred, so that two or three do.
 *
 * @param y any finite number; W(e^1000) is 993.1
 * @param near what it was at a y near by, which saves a step; anything may stand here
 * @see F. N. Fritsch, R. E. Shafer, W. P. Crowley, Algorithm 443: Solution of the transcendental equation w e^w = x,
 *   Comm. ACM 16 (1973) 123-124
 */
export function lambertOfExp(y: number, near = 0): number {
  if (y < -18) {
    const e = Math.exp(y)
    return e * (1 - e)
  }
  let w = near
  let rest = y - w - Math.log(w)
  if (!(Math.abs(rest) < nearEnough)) {
    w = firstOfExp(y)
    rest = y - w - Math.log(w)
  }
  for (let i = 0; i < 8; i++) {
    const q = 2 * (1 + w) * (1 + w + (2 / 3) * rest)
    const part = ((rest / (1 + w)) * (q - rest)) / (q - 2 * rest)
    w *= 1 + part
    if (Math.abs(part) < 1e-4) break
    rest = y - w - Math.log(w)
  }
  return w
}

/** Series about e^y = 0, about y = 1, and for large y. */
function firstOfExp(y: number): number {
  if (y < -1.5) {
    const e = Math.exp(y)
    return e * (1 - e * (1 - 1.5 * e))
  }
  if (y < 3) return 1 + (y - 1) * (0.5 + (y - 1) * (1 / 16 - (y - 1) / 192))
  const log = Math.log(y)
  return y - log + log / y
}
