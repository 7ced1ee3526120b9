import { FaultError } from '#core/fault'
import { sampleCovariance, summarize } from '#core/numeric'
import { type Correlation, leaf, type Origin, type Quantity, term, type Unit } from '#core/quantity'

/** Readings of one thing, repeated. */
export interface Readings<U extends Unit = Unit> {
  readonly values: readonly number[]
  readonly unit: U
  /** Identity of the cause their scatter makes. */
  readonly cause: string
  /** What is read, for people. */
  readonly what: string
}

/** A standard deviation known from many readings, and its degrees of freedom. */
export interface KnownSpread {
  readonly sd: number
  readonly dof: number
}

/**
 * The mean of repeated readings, with the standard deviation of the mean as its uncertainty (type A). Where the spread
 * of such readings is known from earlier ones, give it as `known`: it then stands in for that of these few.
 *
 * @throws {FaultError} `out-of-domain` for fewer than two readings and no known spread
 * @see JCGM 100:2008, 4.2; with a pooled standard deviation, 4.2.4 and H.3.6
 * @example meanOfReadings({ values: [1, 2, 3], unit: 'V', cause: 'scatter', what: 'V_BE' }) // 2 V, u = 0.577 V, 2 dof
 */
export function meanOfReadings<U extends Unit>(r: Readings<U>, known?: KnownSpread): Quantity<U> {
  requireReadings(r, known === undefined ? 2 : 1)
  const s = summarize(r.values)
  const { sd, dof } = known ?? { sd: s.sd, dof: s.count - 1 }
  return leaf(s.mean, r.unit, originOf(r), [scatter(r, sd / Math.sqrt(s.count), dof)])
}

const scatter = (r: Readings, u: number, dof: number) =>
  term(r.cause, { label: `scatter of ${r.values.length} readings`, u, dof, distribution: 't' })

const originOf = (r: Readings): Origin => ({
  kind: 'read',
  what: r.what,
  seen: r.values.length <= 10 ? r.values.join(', ') : `${r.values.length} readings`,
})

function requireReadings(r: Readings, least: number): void {
  if (r.values.length < least)
    throw new FaultError({
      code: 'out-of-domain',
      name: `count of readings of ${r.what}`,
      value: r.values.length,
      allowed: `at least ${least}`,
    })
  const bad = r.values.find((v) => !Number.isFinite(v))
  if (bad !== undefined)
    throw new FaultError({
      code: 'out-of-domain',
      name: `reading of ${r.what}`,
      value: bad,
      allowed: 'a finite number',
    })
}

/** The spread of one kind of reading from several short series, each with its own mean. */
export function pooledSpread(series: readonly KnownSpread[]): KnownSpread {
  const dof = series.reduce((sum, s) => sum + s.dof, 0)
  if (!(dof > 0))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'degrees of freedom',
      value: dof,
      allowed: 'above 0 altogether',
    })
  return { sd: Math.sqrt(series.reduce((sum, s) => sum + s.dof * s.sd ** 2, 0) / dof), dof }
}

/**
 * Means of several things read together, time after time: their scatter may go together, and the means then carry the
 * correlations.
 *
 * @param series one entry for each thing; all with the same number of readings, the first of each taken together
 * @throws {FaultError} `out-of-domain` for fewer than two readings, or unequal counts
 * @see JCGM 100:2008, 5.2.3 and H.2
 */
export function jointMeans<S extends Readonly<Record<string, Readings>>>(
  series: S,
): { readonly [K in keyof S]: S[K] extends Readings<infer U> ? Quantity<U> : never } {
  const names = Object.keys(series)
  const means = names.map((n) => meanOfReadings(series[n]!))
  const pairs: Correlation[] = []
  for (const [i, one] of names.entries()) {
    for (const other of names.slice(i + 1)) {
      const [a, b] = [series[one]!, series[other]!]
      pairs.push({ a: a.cause, b: b.cause, r: sampleCorrelation(a, b) })
    }
  }
  const withPairs = means.map((m) => ({
    ...m,
    correlations: pairs.filter((p) => m.budget.some((t) => t.cause === p.a || t.cause === p.b)),
  }))
  return Object.fromEntries(names.map((n, i) => [n, withPairs[i]!])) as never
}

function sampleCorrelation(a: Readings, b: Readings): number {
  if (a.values.length !== b.values.length)
    throw new FaultError({
      code: 'out-of-domain',
      name: `count of readings of ${b.what}`,
      value: b.values.length,
      allowed: `${a.values.length}, as of ${a.what}: they were taken together`,
    })
  const both = summarize(a.values).sd * summarize(b.values).sd
  // rounding may carry an exact correlation a hair beyond 1
  return both === 0 ? 0 : Math.max(-1, Math.min(1, sampleCovariance(a.values, b.values) / both))
}
