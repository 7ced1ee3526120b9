import {
  type AnyFormula,
  contribution,
  leaf,
  type Quantity,
  standardUncertainty,
  type Term,
  term,
} from '#core/quantity'
import { bendWorthSampling, curvature } from './curvature.ts'

/**
 * The same quantity with every straight part of its derivation taken together, so that random trials have only the bent
 * rest to work through. A straight part becomes one value with the causes it shares with other parts, the two widest of
 * its other limits of error, whose shape tells, and one normal cause for all that is left.
 */
export function straightened(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>): Quantity {
  const parts = new Set<Quantity>()
  collect(q, formulas, parts)
  const seen = new Map<string, number>()
  for (const p of parts) for (const t of p.budget) seen.set(t.cause, (seen.get(t.cause) ?? 0) + 1)
  const isShared = (t: Term): boolean => (seen.get(t.cause) ?? 0) > 1
  const made = new Map<Quantity, Quantity>()
  let count = 0
  for (const p of parts) made.set(p, taken(p, isShared, `straight/${count++}`))
  return rebuilt(q, made)
}

function collect(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>, into: Set<Quantity>): void {
  if (q.origin.kind !== 'derived' || curvature(q, formulas) <= bendWorthSampling) into.add(q)
  else for (const x of Object.values(q.origin.inputs)) collect(x, formulas, into)
}

function taken(q: Quantity, isShared: (t: Term) => boolean, cause: string): Quantity {
  if (q.correlations !== undefined || (q.origin.kind !== 'derived' && q.budget.length <= 2)) return q
  const own = q.budget.filter((t) => !isShared(t)).sort((s, t) => contribution(t) - contribution(s))
  const widest = own.filter((t) => t.distribution === 'rectangular').slice(0, 2)
  const left = { ...q, budget: own.filter((t) => !widest.includes(t)) }
  const rest = term(cause, { label: q.origin.what, u: standardUncertainty(left) })
  return leaf(q.value, q.unit, { kind: 'stated', what: q.origin.what }, [...q.budget.filter(isShared), ...widest, rest])
}

function rebuilt(q: Quantity, made: ReadonlyMap<Quantity, Quantity>): Quantity {
  const known = made.get(q)
  if (known !== undefined || q.origin.kind !== 'derived') return known ?? q
  const inputs = Object.fromEntries(Object.entries(q.origin.inputs).map(([k, x]) => [k, rebuilt(x, made)]))
  return { ...q, origin: { ...q.origin, inputs } }
}
