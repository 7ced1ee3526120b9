import { FaultError } from '#core/fault'
import { studentQuantile } from '#core/numeric'
import { contribution, type Quantity, standardUncertainty, type Term } from '#core/quantity'
import { errorShape, shapeReach } from './shape.ts'

/** An interval that is expected to hold the value with a stated probability, and how it was come by. */
export interface Coverage {
  readonly level: number
  readonly low: number
  readonly high: number
  /** Half width: coverage factor times standard uncertainty. */
  readonly expanded: number
  readonly factor: number
  /** Effective degrees of freedom; infinite where no cause states any. */
  readonly dof: number
}

/**
 * Effective degrees of freedom of a quantity, by the formula of Welch and Satterthwaite.
 *
 * The formula wants independent causes. Causes that carry a correlation come from one set of readings taken together;
 * they count as one component, with their joint variance and the fewest degrees of freedom among them.
 *
 * @returns infinity where no cause that matters states degrees of freedom, or nothing matters
 * @see JCGM 100:2008, G.4.1
 */
export function effectiveDof(q: Quantity): number {
  let below = 0
  for (const group of groups(q)) {
    const dof = Math.min(...group.map((t) => t.dof ?? Number.POSITIVE_INFINITY))
    const variance = group.length === 1 ? contribution(group[0]!) ** 2 : jointVariance(q, group)
    below += variance ** 2 / dof
  }
  const u = standardUncertainty(q)
  return below > 0 ? u ** 4 / below : Number.POSITIVE_INFINITY
}

/** Terms of a budget, those linked by correlations together. */
function groups(q: Quantity): readonly (readonly Term[])[] {
  if (q.correlations === undefined) return q.budget.map((t) => [t])
  const group = new Map<string, Term[]>(q.budget.map((t) => [t.cause, []]))
  for (const t of q.budget) group.get(t.cause)!.push(t)
  for (const { a, b } of q.correlations) {
    const [one, other] = [group.get(a), group.get(b)]
    if (one === undefined || other === undefined || one === other) continue
    one.push(...other)
    for (const t of other) group.set(t.cause, one)
  }
  return [...new Set(group.values())]
}

function jointVariance(q: Quantity, group: readonly Term[]): number {
  return standardUncertainty({ ...q, budget: group }) ** 2
}

/** The factor by which a standard uncertainty is multiplied to cover `level` of normal or t-distributed values. */
export const coverageFactor = (dof: number, level = 0.95): number => studentQuantile((1 + requireLevel(level)) / 2, dof)

function requireLevel(level: number): number {
  if (level > 0 && level < 1) return level
  throw new FaultError({ code: 'out-of-domain', name: 'level of confidence', value: level, allowed: 'between 0 and 1' })
}

/**
 * Expanded uncertainty. Where causes state degrees of freedom, with the t factor for the effective ones, which are not cut
 * to a whole number; else with the factor of the error's own shape, since the normal one is too wide where a limit of
 * error dominates.
 *
 * @param level probability to be covered
 * @see JCGM 100:2008, G.3.2 and G.6.4 (t factor), G.6.5 (shape)
 */
export function coverage(q: Quantity, level = 0.95): Coverage {
  const dof = effectiveDof(q)
  const u = standardUncertainty(q)
  const isShaped = dof === Number.POSITIVE_INFINITY && u > 0
  const expanded = isShaped ? shapeReach(errorShape(q), requireLevel(level)) : coverageFactor(dof, level) * u
  const factor = isShaped ? expanded / u : coverageFactor(dof, level)
  return { level, low: q.value - expanded, high: q.value + expanded, expanded, factor, dof }
}

/** The interval in which the value lies with 95 % probability. */
export function interval95(q: Quantity): readonly [low: number, high: number] {
  const { low, high } = coverage(q)
  return [low, high]
}
