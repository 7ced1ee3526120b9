import { type Stage, stageAt } from './stage-point.ts'
import type { State } from './template.ts'

/** Where a stage stands at one temperature of its course. */
export interface CoursePoint {
  readonly temperatureC: number
  readonly ic: number
  readonly vce: number
}

/**
 * How current and voltage of the place that is looked at go over the temperatures asked for; a temperature at which the
 * stage has no point, or its part runs away, is left out.
 *
 * @param stepK steps between the coldest and the hottest air, both included
 */
export function courseOf(s: Stage, state: State = s.position.template.states[0]!, stepK = 2.5): readonly CoursePoint[] {
  const { fromC, toC } = s.position.demands
  const count = Math.max(1, Math.round((toC - fromC) / stepK))
  return Array.from({ length: count + 1 }, (_, k) => fromC + (k * (toC - fromC)) / count).flatMap((temperatureC) => {
    const outcome = stageAt(s, temperatureC, state)
    return outcome.kind === 'point' ? [{ temperatureC, ic: outcome.point.ic, vce: outcome.point.vce }] : []
  })
}
