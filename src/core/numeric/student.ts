import { incompleteBeta } from './beta.ts'
import { logBeta } from './gamma.ts'
import { normalQuantile, normalTail } from './normal.ts'

/** Above this many degrees of freedom the expansion about the normal distribution is as good as the integral. */
const nearlyNormal = 1e5

/**
 * Probability that Student's t exceeds `t`.
 *
 * @param t value
 * @param dof degrees of freedom, above 0, need not be whole; infinity is the normal distribution
 */
export function studentTail(t: number, dof: number): number {
  if (!(dof > 0) || Number.isNaN(t)) return Number.NaN
  if (dof > nearlyNormal) return normalTail(normalOf(t, dof))
  if (t < 0) return 1 - studentTail(-t, dof)
  const s = t * t
  if (s === Number.POSITIVE_INFINITY) return 0
  const near = dof / (dof + s)
  return 0.5 * incompleteBeta(near, dof / 2, 0.5, s / (dof + s))
}

/** Probability that Student's t lies below `t`. */
export const studentCdf = (t: number, dof: number): number => studentTail(-t, dof)

/** The normal value with the same tail as t, for many degrees of freedom (Fisher and Cornish's expansion). */
function normalOf(t: number, dof: number): number {
  if (dof === Number.POSITIVE_INFINITY) return t
  const s = t * t
  return t * (1 - (s + 1) / (4 * dof) + (13 * s * s + 8 * s + 3) / (96 * dof * dof))
}

/**
 * The value Student's t stays below with probability `p`.
 *
 * @param p probability, 0 to 1
 * @param dof degrees of freedom, above 0, need not be whole; infinity is the normal distribution
 * @returns relative accuracy about 1e-13; NaN outside the domain
 * @example studentQuantile(0.975, 4) // 2.776445105197793
 */
export function studentQuantile(p: number, dof: number): number {
  if (!(p >= 0 && p <= 1) || !(dof > 0)) return Number.NaN
  if (p === 0.5) return 0
  if (p > 0.5) return upperQuantile(1 - p, dof)
  return -upperQuantile(p, dof)
}

/** t with tail probability q below one half. */
function upperQuantile(q: number, dof: number): number {
  if (q === 0) return Number.POSITIVE_INFINITY
  const z = -normalQuantile(q)
  if (dof === Number.POSITIVE_INFINITY) return z
  const s = z * z
  const guess = z * (1 + (s + 1) / (4 * dof) + ((5 * s + 16) * s + 3) / (96 * dof * dof))
  if (dof > nearlyNormal) return guess
  if (dof === 1) return 1 / Math.tan(Math.PI * q)
  if (dof === 2) return (1 - 2 * q) / Math.sqrt(2 * q * (1 - q))
  return newton(Math.log(guess), Math.log(q), dof)
}

/**
 * Solves ln tail = wanted by Newton's steps in ln t. The curve falls and bends down only, so the steps settle from any
 * start: after the first they all come from the same side.
 */
function newton(start: number, wanted: number, dof: number): number {
  const scale = -logBeta(dof / 2, 0.5) - 0.5 * Math.log(dof)
  let y = start
  for (let i = 0; i < 60; i++) {
    const t = Math.exp(y)
    const tail = studentTail(t, dof)
    const density = Math.exp(scale - 0.5 * (dof + 1) * Math.log1p((t * t) / dof))
    const step = ((Math.log(tail) - wanted) * tail) / (density * t)
    y += step
    if (Math.abs(step) < 1e-13) break
  }
  return Math.exp(y)
}
