import type { PartType, PowerRating } from '#core/device'
import { deratedPower, heatPath, pathResistance } from '#core/physics'
import { exactlyKnown, type Known } from './known.ts'

/**
 * What a rating still allows at a temperature: its own derating, or to nothing at T_Jmax; the full power up to the
 * temperature it is printed for.
 *
 * @returns W; undefined above the rated temperature where neither T_Jmax nor a derating is published
 * @example allowedPower({ powerW: 0.15, of: 'ambient', atC: 25, deratingWPerK: 0.002 }, undefined, 50) // 0.1
 */
export function allowedPower(
  rating: PowerRating,
  tJmaxC: number | undefined,
  temperatureC: number,
): number | undefined {
  if (temperatureC <= rating.atC) return rating.powerW
  if (tJmaxC !== undefined && tJmaxC > rating.atC) return deratedPower(rating, tJmaxC, temperatureC)
  if (rating.deratingWPerK === undefined) return undefined
  return Math.max(0, rating.powerW - rating.deratingWPerK * (temperatureC - rating.atC))
}

/**
 * The most a type may have by what is published of one kind: the best of its ratings, each of which holds, and no more
 * than its thermal resistance lets through.
 */
function byRatings(type: PartType, of: PowerRating['of'], temperatureC: number): number | undefined {
  const { power, T_Jmax, R_thJA, R_thJC } = type.ratings
  const rth = of === 'ambient' ? R_thJA : R_thJC
  const rated = power
    .filter((p) => p.of === of)
    .map((p) => allowedPower(p, T_Jmax, temperatureC))
    .filter((p) => p !== undefined)
  const through = rth === undefined || T_Jmax === undefined ? [] : [Math.max(0, (T_Jmax - temperatureC) / rth)]
  const bounds = [...(rated.length > 0 ? [Math.max(...rated)] : []), ...through]
  return bounds.length === 0 ? undefined : Math.min(...bounds)
}

/** Power a type may have in free air; from its outline where no rating of that kind is published. */
export function airPower(type: PartType, ambientC: number): Known | undefined {
  const rated = byRatings(type, 'ambient', ambientC)
  if (rated !== undefined) return exactlyKnown(rated, `derated to ${ambientC} °C in free air`)
  const { T_Jmax } = type.ratings
  if (T_Jmax === undefined) return undefined
  const path = heatPath({ ...type.ratings, T_Jmax }, type.outline)
  const allowed = Math.max(0, (T_Jmax - ambientC) / pathResistance(path))
  return { usual: allowed, how: `worked out at ${ambientC} °C without heat sink, ${path.from}` }
}

/** Power a type may have with its case held at a temperature; what it may have in free air is never more. */
export function casePower(type: PartType, caseC: number): Known | undefined {
  const rated = byRatings(type, 'case', caseC)
  if (rated !== undefined) return exactlyKnown(rated, `with its case at ${caseC} °C`)
  const air = byRatings(type, 'ambient', caseC)
  return air === undefined ? undefined : { low: air, how: 'rated in free air alone' }
}

/** Whether a power is published of a type in air, or with its case held cool. */
export const isRated = (type: PartType, of: PowerRating['of']): boolean =>
  type.ratings.power.some((p) => p.of === of) ||
  (of === 'ambient' ? type.ratings.R_thJA : type.ratings.R_thJC) !== undefined
