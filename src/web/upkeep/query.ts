import { queryOptions } from '@tanstack/react-query'
import { api, queryKeys } from '#web/live'

/** Parts read on a tester and on another. */
export const pairedQuery = (id: string, other: string, symbol: string) =>
  queryOptions({
    queryKey: [...queryKeys.testers, id, 'paired', other, symbol],
    queryFn: () => api.paired(id, other, symbol),
    retry: false,
  })
