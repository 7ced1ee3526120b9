import {
  type AnyFormula,
  derive,
  exact,
  leaf,
  type Quantity,
  standardUncertainty,
  type Term,
  term,
} from '#core/quantity'
import { runningMean, scattered } from './operating-point.ts'

/** Causes that belong to one reading alone. */
const isOwn = (cause: string): boolean => cause.startsWith('reading/')

/**
 * The quantity with the causes of its own reading renamed, so that reading it again is a new reading. Causes that many
 * readings share keep their names.
 */
export function withOwnCauses(q: Quantity, count: number): Quantity {
  const renamed = (t: Term): Term => (isOwn(t.cause) ? { ...t, cause: `${t.cause}#${count}` } : t)
  const { origin } = q
  return {
    ...q,
    budget: q.budget.map(renamed),
    origin:
      origin.kind !== 'derived'
        ? origin
        : {
            ...origin,
            inputs: Object.fromEntries(Object.entries(origin.inputs).map(([k, x]) => [k, withOwnCauses(x, count)])),
          },
  }
}

/**
 * Mean of repeated readings. Where three or more scatter more than their own causes explain, the rest is added with its
 * degrees of freedom (JCGM 100:2008, 4.2).
 */
export function meanOf(readings: readonly Quantity[]): Quantity {
  const first = readings[0]!
  if (readings.length === 1) return first
  const unit = first.unit as 'A' | 'V' | '1'
  let mean = first
  for (let n = 2; n <= readings.length; n++) {
    const f: AnyFormula = runningMean[unit]
    const inputs = { mean, next: readings[n - 1]!, count: exact(n, '1', 'readings so far') }
    mean = derive(f, inputs, `mean of ${n} readings`)
  }
  const extra = extraScatter(readings, mean)
  if (extra === 0) return mean
  const cause = `reading/${mean.budget.find((t) => isOwn(t.cause))?.cause ?? first.origin.what}/scatter`
  const scatter = leaf(0, unit, { kind: 'assumed', what: 'scatter', why: 'the readings differ' }, [
    term(cause, {
      label: `scatter of ${readings.length} readings`,
      u: extra,
      dof: readings.length - 1,
      distribution: 't',
    }),
  ])
  const f: AnyFormula = scattered[unit]
  return derive(f, { mean, scatter }, `mean of ${readings.length} readings`)
}

/** Standard error of the mean beyond what the own causes of the readings give. */
function extraScatter(readings: readonly Quantity[], mean: Quantity): number {
  const n = readings.length
  if (n < 3) return 0
  const variance = readings.reduce((sum, q) => sum + (q.value - mean.value) ** 2, 0) / (n - 1)
  const own = { ...mean, budget: mean.budget.filter((t) => isOwn(t.cause)) }
  return Math.sqrt(Math.max(0, variance / n - standardUncertainty(own) ** 2))
}
