const halfLogTwoPi = 0.5 * Math.log(2 * Math.PI)

/** Stirling's correction: ln Gamma(x) less its leading terms, for x of 10 and more. */
export function stirlingCorrection(x: number): number {
  const s = 1 / (x * x)
  const series =
    1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s * (1 / 1188 - s * (691 / 360360 - s * (1 / 156))))))
  return series / x
}

/**
 * Natural logarithm of the gamma function, for x above 0.
 *
 * @returns ln Gamma(x), NaN at or below 0; relative accuracy about 1e-14 away from its zeros at 1 and 2
 * @see Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 6.1.15 and 6.1.40
 */
export function logGamma(x: number): number {
  if (!(x > 0)) return Number.NaN
  if (x === 1 || x === 2) return 0
  if (x >= 10) return (x - 0.5) * Math.log(x) - x + halfLogTwoPi + stirlingCorrection(x)
  let product = 1
  let y = x
  for (; y < 10; y++) product *= y
  return (y - 0.5) * Math.log(y) - y + halfLogTwoPi + stirlingCorrection(y) - Math.log(product)
}

/** Natural logarithm of the beta function; keeps its digits where one argument is very large. */
export function logBeta(a: number, b: number): number {
  const p = Math.min(a, b)
  const q = Math.max(a, b)
  const share = p / (p + q)
  if (p >= 10) {
    const correction = stirlingCorrection(p) + stirlingCorrection(q) - stirlingCorrection(p + q)
    return halfLogTwoPi - 0.5 * Math.log(q) + correction + (p - 0.5) * Math.log(share) + q * Math.log1p(-share)
  }
  if (q >= 10) {
    const correction = stirlingCorrection(q) - stirlingCorrection(p + q)
    return logGamma(p) + correction + p - p * Math.log(p + q) + (q - 0.5) * Math.log1p(-share)
  }
  return logGamma(p) + logGamma(q) - logGamma(p + q)
}

const mostSteps = 100_000
const tiny = 1e-300

/**
 * Regularised upper incomplete gamma function Q(a, x): the probability that a gamma variable of shape `a` exceeds x.
 *
 * @see Abramowitz and Stegun, 6.5.29 (series) and 6.5.31 (continued fraction)
 */
export function gammaTail(a: number, x: number): number {
  if (!(a > 0) || !(x >= 0)) return Number.NaN
  if (x === 0) return 1
  const front = Math.exp(a * Math.log(x) - x - logGamma(a))
  return x < a + 1 ? 1 - front * lowerSeries(a, x) : front * upperFraction(a, x)
}

/** Regularised lower incomplete gamma function P(a, x) = 1 - Q(a, x), accurate where it is small. */
export function gammaCdf(a: number, x: number): number {
  if (!(a > 0) || !(x >= 0)) return Number.NaN
  if (x === 0) return 0
  const front = Math.exp(a * Math.log(x) - x - logGamma(a))
  return x < a + 1 ? front * lowerSeries(a, x) : 1 - front * upperFraction(a, x)
}

function lowerSeries(a: number, x: number): number {
  let item = 1 / a
  let sum = item
  for (let n = 1; n < mostSteps && item > sum * 1e-17; n++) {
    item *= x / (a + n)
    sum += item
  }
  return sum
}

function upperFraction(a: number, x: number): number {
  let b = x + 1 - a
  let c = 1 / tiny
  let d = 1 / b
  let h = d
  for (let n = 1; n < mostSteps; n++) {
    const an = -n * (n - a)
    b += 2
    d = 1 / nonZero(an * d + b)
    c = nonZero(b + an / c)
    const step = d * c
    h *= step
    if (Math.abs(step - 1) < 1e-16) break
  }
  return h
}

const nonZero = (x: number): number => (Math.abs(x) < tiny ? tiny : x)
