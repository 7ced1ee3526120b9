import { FaultError } from '#core/fault'
import type { AnyFormula, Formula } from './formula.ts'
import type { Correlation, Quantity, Term } from './quantity.ts'
import type { Unit } from './unit.ts'

/**
 * Partial derivatives of a formula at given inputs: its own where it states them, else by central differences with
 * one Richardson step (error of the order of the step to the fourth power).
 */
export function slopes(f: AnyFormula, at: Readonly<Record<string, number>>): Readonly<Record<string, number>> {
  if (f.partials !== undefined) return f.partials(at)
  return numericSlopes(f, at)
}

/** Partial derivatives by differences, whatever the formula states; laws compare the two. */
export function numericSlopes(f: AnyFormula, at: Readonly<Record<string, number>>): Readonly<Record<string, number>> {
  const result: Record<string, number> = {}
  const point: Record<string, number> = { ...at }
  for (const name of Object.keys(f.inputs)) {
    const x = at[name]!
    const domain = f.domain[name] as readonly [number, number]
    const scale = Math.abs(x) > 0 ? Math.abs(x) : (domain[1] - domain[0]) * 1e-3
    const difference = (h: number): number => {
      point[name] = x + h
      const above = f.evaluate(point)
      point[name] = x - h
      const below = f.evaluate(point)
      point[name] = x
      return (above - below) / (2 * h)
    }
    const h = scale * 1e-3
    result[name] = (4 * difference(h / 2) - difference(h)) / 3
  }
  return result
}

/**
 * Derives a quantity: evaluates the formula and chains the slopes of every cause. Where two inputs share a cause its
 * slopes add, so correlation is never asked for and never forgotten.
 *
 * @param f formula
 * @param inputs a quantity for each input, in the unit the formula names
 * @param what what the result is, for people; by default the formula's text left of the equals sign
 * @throws {FaultError} `unit-mismatch` where an input read from a file is in another unit; `out-of-domain` where the
 *   result is not a finite number
 * @see JCGM 100:2008, eq. 10 and 13
 */
export function derive<I extends Readonly<Record<string, Unit>>, U extends Unit>(
  f: Formula<I, U>,
  inputs: { readonly [K in keyof I]: Quantity<I[K]> },
  what: string = f.text.split(' = ')[0]!,
): Quantity<U> {
  const quantities = inputs as Readonly<Record<string, Quantity>>
  const { names, at } = argumentOf(f)
  for (const name of names) {
    const q = quantities[name]!
    if (q.unit !== f.inputs[name])
      throw new FaultError({ code: 'unit-mismatch', name: f.symbols[name]!, got: q.unit, wanted: f.inputs[name]! })
    at[name] = q.value
  }
  const value = f.evaluate(at as { readonly [K in keyof I]: number })
  if (!Number.isFinite(value))
    throw new FaultError({ code: 'out-of-domain', name: what, value, allowed: `a number; check ${f.text}` })
  const partial = slopes(f, at)
  const budget: Term[] = []
  let correlations: readonly Correlation[] = []
  for (const name of names) {
    const q = quantities[name]!
    passOn(q.budget, partial[name]!, budget)
    correlations = mergeCorrelations(correlations, q.correlations)
  }
  const origin = { kind: 'derived', what, formula: f.id, version: f.version, inputs: quantities } as const
  return correlations.length === 0
    ? { value, unit: f.unit, budget, origin }
    : { value, unit: f.unit, budget, correlations, origin }
}

/**
 * Budget of a sum of quantities, each times a number: causes that several of them share are one error.
 *
 * @see JCGM 100:2008, eq. 10 and 13
 */
export function sumBudget(
  parts: readonly (readonly [Quantity, factor: number])[],
): Pick<Quantity, 'budget' | 'correlations'> {
  const budget: Term[] = []
  let correlations: readonly Correlation[] = []
  for (const [q, factor] of parts) {
    passOn(q.budget, factor, budget)
    correlations = mergeCorrelations(correlations, q.correlations)
  }
  return correlations.length === 0 ? { budget } : { budget, correlations }
}

interface Argument {
  readonly names: readonly string[]
  readonly at: Record<string, number>
}

const made = new WeakMap<AnyFormula, Argument>()

/** The one argument object of a formula, filled anew each time: its code meets one shape of object for ever. */
function argumentOf(f: AnyFormula): Argument {
  const known = made.get(f)
  if (known !== undefined) return known
  const names = Object.keys(f.inputs)
  const fresh = { names, at: Object.fromEntries(names.map((name) => [name, 0])) }
  made.set(f, fresh)
  return fresh
}

/** Passes terms on with a slope, adding to those of the same cause. Budgets are short: looking through one is quick. */
function passOn(terms: readonly Term[], slope: number, into: Term[]): void {
  for (const t of terms) {
    const at = indexOfCause(into, t.cause)
    if (at < 0) into.push(withSlope(t, slope * t.slope))
    else into[at] = together(into[at]!, t, slope)
  }
}

function indexOfCause(terms: readonly Term[], cause: string): number {
  for (let i = 0; i < terms.length; i++) if (terms[i]!.cause === cause) return i
  return -1
}

/**
 * A term passed on with a slope, added to what the same cause did before. Where the two state the cause in different
 * units (its u differs), each moves by its own u: they are still one error.
 */
function together(before: Term, t: Term, slope: number): Term {
  if (before.u === t.u) return withSlope(t, before.slope + slope * t.slope)
  const larger = before.u > t.u ? before : t
  return withSlope(larger, (before.slope * before.u + slope * t.slope * t.u) / larger.u)
}

/** Written out key by key: a spread copy takes several times as long, and this is the heart of every number. */
function withSlope(t: Term, slope: number): Term {
  if (slope === t.slope) return t
  const { cause, label, u, dof, distribution } = t
  return dof === undefined ? { cause, label, slope, u, distribution } : { cause, label, slope, u, dof, distribution }
}

function mergeCorrelations(
  have: readonly Correlation[],
  more: readonly Correlation[] | undefined,
): readonly Correlation[] {
  if (more === undefined || more === have) return have
  if (have.length === 0) return more
  const key = (c: Correlation): string => (c.a < c.b ? `${c.a}\n${c.b}` : `${c.b}\n${c.a}`)
  const all = new Map(have.map((c) => [key(c), c]))
  for (const c of more) all.set(key(c), c)
  return [...all.values()]
}
