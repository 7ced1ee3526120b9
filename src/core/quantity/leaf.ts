import type { Distribution, Origin, Quantity, Term } from './quantity.ts'
import type { Unit } from './unit.ts'

/** What a cause is, apart from its slope. */
export interface CauseOptions {
  readonly label: string
  /** Standard uncertainty, in the unit of the quantity unless `slope` says otherwise. */
  readonly u: number
  readonly slope?: number
  readonly dof?: number
  readonly distribution?: Distribution
}

/** One term of a budget; slope 1 and a normal distribution unless stated. */
export function term(cause: string, o: CauseOptions): Term {
  const { label, u, dof, slope = 1, distribution = 'normal' } = o
  if (dof === undefined || dof === Number.POSITIVE_INFINITY) return { cause, label, slope, u, distribution }
  return { cause, label, slope, u, dof, distribution }
}

/** A term for an error limit of plus or minus `halfWidth`, every value inside equally likely (JCGM 100:2008, 4.3.7). */
export const limitTerm = (cause: string, label: string, halfWidth: number, slope = 1): Term =>
  term(cause, { label, u: halfWidth / Math.sqrt(3), slope, distribution: 'rectangular' })

/** A quantity that is not derived from others: read, stated or assumed. */
export const leaf = <U extends Unit>(
  value: number,
  unit: U,
  origin: Origin,
  budget: readonly Term[] = [],
): Quantity<U> => ({
  value,
  unit,
  budget,
  origin,
})

/** A number without doubt: a defined constant, a count, a setting that is exact by definition. */
export const exact = <U extends Unit>(value: number, unit: U, what: string): Quantity<U> =>
  leaf(value, unit, { kind: 'stated', what })
