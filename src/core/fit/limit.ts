import { FaultError } from '#core/fault'
import type { ModelFit } from '#core/numeric'
import type { FittedParameter, Held } from './describe-fit.ts'
import { type CurveLaw, indexOfParameter } from './law.ts'
import { fitObserved, type Observed } from './observed.ts'

/** Rise of chi-square at a limit that holds with 95 % on one side: 1.645 squared. */
const rise = 2.706

/**
 * How large a parameter that was left out may be (or how small, of a knee or an Early voltage), the others fitted anew:
 * where chi-square has risen so far that the readings object with 95 %.
 *
 * @returns undefined where the readings set no limit, or the parameter is not one that can be left out
 */
export function limitOf(law: CurveLaw, seen: Observed, fit: ModelFit, held: Held, j: number): FittedParameter['limit'] {
  const p = law.parameters[j]!
  if (p.absent === undefined || held.get(j)?.value !== p.absent || p.scale !== 'log') return undefined
  if (p.sizedBy !== undefined && held.has(indexOfParameter(law, p.sizedBy))) return undefined
  const objects = (x: number): boolean => {
    try {
      const other = fitObserved(law, seen, new Map(held).set(j, { value: x, why: '' }), fit.values)
      return other.squares - fit.squares > rise
    } catch (error) {
      if (error instanceof FaultError) return true
      throw error
    }
  }
  let [absent, present] = p.isGoneAbove ? [Math.log(p.high), Math.log(p.low)] : [Math.log(p.low), Math.log(p.high)]
  if (objects(Math.exp(absent)) || !objects(Math.exp(present))) return undefined
  for (let i = 0; i < 30; i++) {
    const middle = (absent + present) / 2
    if (objects(Math.exp(middle))) present = middle
    else absent = middle
  }
  return p.isGoneAbove ? { atLeast: Math.exp(absent) } : { atMost: Math.exp(absent) }
}
