import type { ModelFit } from '#core/numeric'
import { type Held, misfit } from './describe-fit.ts'
import type { CurveLaw } from './law.ts'
import { fitObserved, type Observed } from './observed.ts'

/** A relative standard uncertainty above this makes a parameter doubtful: it is tried without. */
const doubtful = 0.3

/** Chi-square by which leaving a parameter out must raise the misfit, else the data cannot tell it: 95 %, one parameter. */
const leastRaise = 3.84

/** Fits, and takes out one by one what the data cannot tell from being absent. */
export function leaveOut(law: CurveLaw, seen: Observed, start: Held): { fit: ModelFit; held: Held } {
  const held = new Map(start)
  const optional = law.parameters.flatMap((p, j) => (p.absent !== undefined && !held.has(j) ? [j] : []))
  while (optional.length > 0 && law.targets.length < law.parameters.length - held.size + 1) {
    const j = optional.pop()!
    held.set(j, { value: law.parameters[j]!.absent!, why: 'there are too few readings to tell it' })
    for (const d of dependents(law, j))
      held.set(d, { value: law.parameters[d]!.start, why: `${law.parameters[j]!.symbol} is absent` })
  }
  let fit = fitObserved(law, seen, held)
  for (;;) {
    const next = weakest(law, fit, held)
      .map((j) => tried(law, seen, fit, held, j))
      .find((t) => t !== undefined)
    if (next === undefined) return { fit, held }
    for (const [j, h] of next.held) held.set(j, h)
    fit = next.fit
  }
}

/** Doubtful parameters that could be absent, the most doubtful first. */
function weakest(law: CurveLaw, fit: ModelFit, held: Held): readonly number[] {
  const doubt = (j: number): number => {
    const found = fit.held.find((h) => h.index === j)
    const u = Math.sqrt(fit.fittedCovariance[j]![j]!)
    return found !== undefined ? Number.POSITIVE_INFINITY : u
  }
  return law.parameters
    .flatMap((p, j) => (p.absent !== undefined && !held.has(j) && doubt(j) > doubtful ? [j] : []))
    .sort((a, b) => doubt(b) - doubt(a))
}

/** The fit without a parameter, where the data do not object. */
function tried(
  law: CurveLaw,
  seen: Observed,
  fit: ModelFit,
  held: Held,
  j: number,
): { fit: ModelFit; held: Held } | undefined {
  const { symbol, absent } = law.parameters[j]!
  const more = new Map(held).set(j, { value: absent!, why: 'the data cannot tell it from being absent' })
  for (const d of dependents(law, j)) more.set(d, { value: law.parameters[d]!.start, why: `${symbol} is absent` })
  const plain = fitObserved(law, seen, more, fit.values)
  const scale = seen.isKnown ? 1 : Math.max(misfit(fit) / Math.max(1, fit.dof), 1e-16)
  return misfit(plain) - misfit(fit) <= leastRaise * scale ? { fit: plain, held: more } : undefined
}

/** Parameters that mean nothing without another one. */
function dependents(law: CurveLaw, j: number): readonly number[] {
  return law.parameters[j]!.symbol === 'I_SE' ? [law.parameters.findIndex((p) => p.symbol === 'N_E')] : []
}
