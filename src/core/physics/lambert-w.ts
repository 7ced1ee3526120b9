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

/**
 * W(e^y), without ever forming e^y: solves w + ln w = y.
 *
 * @param y any finite number; W(e^1000) is 993.1
 */
export function lambertOfExp(y: number): number {
  if (y < -30) return Math.exp(y) * (1 - Math.exp(y))
  if (y < 1) return polish(Math.log1p(Math.exp(y)) * 0.8, Math.exp(y))
  let w = y > 3 ? y - Math.log(y) : 0.6 + 0.45 * (y - 0.45)
  for (let i = 0; i < 20; i++) {
    const f = w + Math.log(w) - y
    const slope = 1 + 1 / w
    const step = f / (slope + f / (2 * w * w * slope))
    w -= step
    if (Math.abs(step) <= 2e-16 * w) break
  }
  return w
}
