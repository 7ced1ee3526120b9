import { queryOptions } from '@tanstack/react-query'
import type { KeptCurve } from '#api'
import { type CurveFit, fitCurve } from '#core/fit'
import { api, queryKeys } from '#web/live'

/** Curves of a part, kept under the part: what changes it makes them stale. */
export const curvesQuery = (tag: string) =>
  queryOptions({ queryKey: [...queryKeys.part(tag), 'curves'], queryFn: () => api.curves(tag) })

/** Temperature taken where a curve does not say its own, degC. */
export const usualC = 25

/** The fit of a curve, computed by this page once the screen stands; a curve is never changed, so it stays good. */
export const fitQuery = ({ id, curve, temperatureC }: KeptCurve) =>
  queryOptions({
    queryKey: ['fits', id, curve.name],
    queryFn: async (): Promise<CurveFit> => {
      await new Promise((keep) => setTimeout(keep))
      return fitCurve(curve, { temperatureC: temperatureC ?? usualC })
    },
    staleTime: Number.POSITIVE_INFINITY,
    retry: false,
  })
