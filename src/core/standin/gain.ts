import type { Limit, PartType } from '#core/device'
import type { Known } from './known.ts'

/** A gain says nothing of a current further away than this ratio. `common practice` */
export const gainReach = 10

/** Current a gain is published at, A. */
const currentOf = ({ at }: Limit): number | undefined => at.I_C ?? at.I_E

/** Gains of a type: h_FE, and h_fe at a low frequency, which is taken for it. */
const gainsOf = (type: PartType): readonly Limit[] =>
  type.limits.filter((l) => l.symbol === 'h_FE' || (l.symbol === 'h_fe' && (l.at.f ?? 1000) <= 1000))

/** The gain a type is known by: the first h_FE with a bound, else the first gain. */
export function mainGain(type: PartType): Limit | undefined {
  const all = gainsOf(type)
  return (
    all.find((l) => l.symbol === 'h_FE' && l.min !== undefined) ??
    all.find((l) => l.min !== undefined || l.max !== undefined) ??
    all[0]
  )
}

/** The gain published nearest to a current, by ratio; h_FE before h_fe where both are within reach. */
export function gainNear(type: PartType, currentA: number): Limit | undefined {
  const all = gainsOf(type)
  const near = all.filter((l) => farOf(l, currentA) <= Math.log(gainReach) + 1e-9)
  const direct = near.filter((l) => l.symbol === 'h_FE')
  return nearest(direct, currentA) ?? nearest(near, currentA) ?? nearest(all, currentA)
}

const farOf = (l: Limit, currentA: number): number => Math.abs(Math.log((currentOf(l) ?? currentA) / currentA))

const nearest = (all: readonly Limit[], currentA: number): Limit | undefined =>
  all.reduce<Limit | undefined>(
    (a, b) => (a === undefined || farOf(b, currentA) < farOf(a, currentA) ? b : a),
    undefined,
  )

/**
 * What is known of the gain of a type at a current. Published too far away it is a hint alone: no bound.
 *
 * @param currentText writes a current, for the clause
 */
export function gainAt(type: PartType, currentA: number, currentText: (a: number) => string): Known | undefined {
  const l = gainNear(type, currentA)
  if (l === undefined) return undefined
  const at = currentOf(l)
  const where = at === undefined ? 'published without a current' : `published at ${currentText(at)}`
  const name = l.symbol === 'h_fe' ? `${where} as h_fe` : where
  if (farOf(l, currentA) > Math.log(gainReach) + 1e-9) {
    const usual = l.typ ?? l.min ?? l.max!
    return { usual, how: `${name}, too far from ${currentText(currentA)} to tell` }
  }
  return {
    ...(l.min === undefined ? {} : { low: l.min }),
    ...(l.max === undefined ? {} : { high: l.max }),
    ...(l.typ === undefined ? {} : { usual: l.typ }),
    how: name,
  }
}
