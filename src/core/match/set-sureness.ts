import type { Quantity } from '#core/quantity'
import { isWithin } from './place-parts.ts'
import type { MatchPart, MatchRequest } from './request.ts'
import { probabilityMet } from './sureness.ts'

/** Trials for each set: enough for a percent where there are few, fewer where there are thousands of sets. */
const trialsFor = (sets: number): number => Math.max(400, Math.min(4000, Math.round(2e6 / Math.max(1, sets))))

/**
 * Probability that the true values of a set meet every tolerance that was asked for; nothing where none was, or where
 * the doubt of a value is not known.
 *
 * @param sets how many sets there are, which sets the number of random trials for each
 */
export function surenessOf(
  set: readonly MatchPart[],
  { by, places, seed }: MatchRequest,
  sets: number,
): number | undefined {
  const bounded = by.filter((one) => one.within !== undefined)
  if (bounded.length === 0) return undefined
  const values = bounded.flatMap((one) => set.map((part) => part.quantities?.[one.name]))
  if (values.some((q) => q === undefined)) return undefined
  const isMet = (truly: Float64Array): boolean =>
    bounded.every((one, k) => {
      const own = truly.subarray(k * set.length, (k + 1) * set.length)
      if (places !== undefined)
        return own.every((x, i) => {
          const aim = places[i]!.aim[one.name]
          return aim === undefined || isWithin(one, x, aim)
        })
      return isWithin(one, Math.min(...own), Math.max(...own))
    })
  return probabilityMet(values as readonly Quantity[], isMet, { trials: trialsFor(sets), seed })
}
