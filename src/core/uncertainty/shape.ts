import { normalCdf, normalDensity, normalQuantile } from '#core/numeric'
import { contribution, type Quantity, standardUncertainty, type Term } from '#core/quantity'

/**
 * The shape of an error as the sum of its causes makes it: the two widest limits of error, every value inside them
 * equally likely, and all other causes together as a normal one.
 */
export interface ErrorShape {
  /** Half-widths of the two widest limits, a >= b. */
  readonly a: number
  readonly b: number
  /** Standard deviation of all else. */
  readonly sigma: number
}

/** A limit this much narrower than the whole is as good as normal. */
const narrow = 0.02

const root3 = Math.sqrt(3)

/** The shape of a quantity's error; where causes are correlated it is taken as normal. */
export function errorShape(q: Quantity): ErrorShape {
  // in units of the largest, so that the squares of none fall out of what a double holds
  const unit = q.budget.reduce((most, t) => Math.max(most, contribution(t)), 0)
  if (unit === 0) return { a: 0, b: 0, sigma: 0 }
  let a = 0
  let b = 0
  let squares = 0
  for (const t of q.budget) {
    const u = contribution(t) / unit
    squares += u * u
    if (q.correlations !== undefined || !isLimit(t)) continue
    if (u > a) [a, b] = [u, a]
    else if (u > b) b = u
  }
  if (q.correlations !== undefined) squares = (standardUncertainty(q) / unit) ** 2
  const least = narrow * Math.sqrt(squares)
  if (a < least) a = 0
  if (b < least) b = 0
  const sigma = Math.sqrt(Math.max(0, squares - a * a - b * b))
  return { a: root3 * a * unit, b: root3 * b * unit, sigma: sigma < least / 100 ? 0 : sigma * unit }
}

const isLimit = (t: Term): boolean => t.distribution === 'rectangular'

/** The normal distribution function integrated once and twice from minus infinity, for a standard deviation. */
const once = (z: number, sigma: number): number =>
  sigma === 0 ? Math.max(0, z) : z * normalCdf(z / sigma) + sigma * normalDensity(z / sigma)
const twice = (z: number, sigma: number): number =>
  sigma === 0
    ? Math.max(0, z) ** 2 / 2
    : ((z * z + sigma * sigma) * normalCdf(z / sigma) + z * sigma * normalDensity(z / sigma)) / 2

/** Probability that the error is below x, and its density there. */
function below({ a, b, sigma }: ErrorShape, x: number): readonly [probability: number, density: number] {
  if (a === 0) return [normalCdf(x / sigma), normalDensity(x / sigma) / sigma]
  if (b === 0) {
    const step = sigma === 0 ? (z: number): number => (z > 0 ? 1 : 0) : (z: number): number => normalCdf(z / sigma)
    return [(once(x + a, sigma) - once(x - a, sigma)) / (2 * a), (step(x + a) - step(x - a)) / (2 * a)]
  }
  const corners = (f: typeof once): number =>
    (f(x + a + b, sigma) - f(x + a - b, sigma) - f(x - a + b, sigma) + f(x - a - b, sigma)) / (4 * a * b)
  return [corners(twice), corners(once)]
}

/** Half-width of the interval that holds a share of the errors of a shape. */
export function shapeReach({ a, b, sigma }: ErrorShape, level: number): number {
  const wanted = (1 + level) / 2
  const z = normalQuantile(wanted)
  if (a === 0) return sigma * z
  const unit = Math.max(a, sigma)
  const shape = { a: a / unit, b: b / unit, sigma: sigma / unit }
  // the error is at most as far out as in the widest limit alone, blown up to the whole: Newton climbs from below
  let x = Math.min(level, 0.9) * Math.sqrt(shape.a ** 2 + shape.b ** 2 + 3 * shape.sigma ** 2)
  let [low, high] = [0, shape.a + shape.b + z * shape.sigma]
  for (let i = 0; i < 60; i++) {
    const [probability, density] = below(shape, x)
    if (probability < wanted) low = x
    else high = x
    const next = x + (wanted - probability) / density
    const before = x
    // where Newton leaves what is known to hold the answer, halve that
    x = next > low && next < high ? next : (low + high) / 2
    if (Math.abs(x - before) <= 1e-10 * x) break
  }
  return x * unit
}
