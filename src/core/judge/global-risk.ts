import { normalCdf, normalDensity } from '#core/numeric'
import type { Tolerance } from './conformance.ts'

/** Risks of a whole lot that is tested, before anything is measured. */
export interface GlobalRisks {
  /** Probability that an item that does not conform is accepted. */
  readonly consumer: number
  /** Probability that an item that conforms is rejected. */
  readonly producer: number
}

/** A lot: its mean and standard deviation. */
export interface Lot {
  readonly mean: number
  readonly deviation: number
}

/**
 * Global risks of accepting what reads inside `accept`, for a normal lot and a normal measurement.
 *
 * @param u standard uncertainty of a measurement
 * @see JCGM 106:2012, 9.5
 */
export function globalRisks(lot: Lot, u: number, tolerance: Tolerance, accept: Tolerance): GlobalRisks {
  const low = tolerance.min ?? Number.NEGATIVE_INFINITY
  const high = tolerance.max ?? Number.POSITIVE_INFINITY
  const accepted = (x: number): number =>
    normalCdf(((accept.max ?? Number.POSITIVE_INFINITY) - x) / u) -
    normalCdf(((accept.min ?? Number.NEGATIVE_INFINITY) - x) / u)
  const density = (x: number): number => normalDensity((x - lot.mean) / lot.deviation) / lot.deviation
  const reach = 9 * lot.deviation
  const [from, to] = [lot.mean - reach, lot.mean + reach]
  const inside = (f: (x: number) => number): number => integral(f, Math.max(low, from), Math.min(high, to))
  const outside = (f: (x: number) => number): number =>
    integral(f, from, Math.min(low, to)) + integral(f, Math.max(high, from), to)
  return {
    consumer: outside((x) => density(x) * accepted(x)),
    producer: inside((x) => density(x) * (1 - accepted(x))),
  }
}

/** Simpson's rule over many steps: the functions here are smooth. */
function integral(f: (x: number) => number, from: number, to: number): number {
  if (!(to > from)) return 0
  const steps = 4000
  const h = (to - from) / steps
  let sum = f(from) + f(to)
  for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * f(from + i * h)
  return (sum * h) / 3
}
