import { logBeta } from './gamma.ts'

const mostSteps = 200_000
const tiny = 1e-300

/**
 * Regularised incomplete beta function I_x(a, b).
 *
 * @param x 0 to 1
 * @param a above 0
 * @param b above 0
 * @param y 1 - x, where the caller knows it with more digits
 * @returns 0 to 1, relative accuracy about 1e-14; NaN outside the domain
 * @see Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.5.8
 */
export function incompleteBeta(x: number, a: number, b: number, y: number = 1 - x): number {
  if (!(a > 0) || !(b > 0) || !(x >= 0) || !(y >= 0)) return Number.NaN
  if (x === 0) return 0
  if (y === 0) return 1
  const front = Math.exp(a * safeLog(x, y) + b * safeLog(y, x) - logBeta(a, b))
  return x < (a + 1) / (a + b + 2) ? (front * fraction(x, y, a, b)) / a : 1 - (front * fraction(y, x, b, a)) / b
}

/** ln x, through 1 - x where x is near 1. */
const safeLog = (x: number, y: number): number => (y < 0.5 ? Math.log1p(-y) : Math.log(x))

/** The continued fraction, by Lentz's method. */
function fraction(x: number, y: number, a: number, b: number): number {
  let c = 1
  // 1 - (a + b) x / (a + 1), written with 1 - x where that saves digits
  let d = (a + 1) / nonZero(x > 0.5 ? 1 - b + (a + b) * y : a + 1 - (a + b) * x)
  let h = d
  for (let m = 1; m < mostSteps; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / nonZero(1 + even * d)
    c = nonZero(1 + even / c)
    h *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / nonZero(1 + odd * d)
    c = nonZero(1 + odd / c)
    const step = d * c
    h *= step
    if (Math.abs(step - 1) < 1e-16) break
  }
  return h
}

const nonZero = (x: number): number => (Math.abs(x) < tiny ? tiny : x)
