import type { PartType } from '#core/device'
import type { Known } from './known.ts'

/** Reverse recovery time of a diode, s. */
export function recoveryTime({ limits }: PartType): Known | undefined {
  const limit = limits.find((l) => l.symbol === 't_rr')
  if (limit === undefined) return undefined
  const { typ, max } = limit
  return {
    ...(max === undefined ? {} : { high: max }),
    ...(typ === undefined ? {} : { usual: typ }),
    how: 'published t_rr',
  }
}
