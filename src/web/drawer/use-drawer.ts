import { useQuery } from '@tanstack/react-query'
import { api, queryClient, queryKeys } from '#web/live'
import { changed, type Parts, partsOf } from './parts.ts'

/** All parts: fetched whole the first time, then only what changed. */
async function fetchParts(): Promise<Parts> {
  const before = queryClient.getQueryData<Parts>(queryKeys.drawer)
  if (before === undefined || before.count === 0) return partsOf(await api.drawer())
  const changes = await api.drawerChanges(before.version)
  // A book that was put back to an earlier state has less than is held here.
  if (changes.count < before.count || changes.version < before.version) return partsOf(await api.drawer())
  return changed(before, changes)
}

export const useParts = () =>
  useQuery({ queryKey: queryKeys.drawer, queryFn: fetchParts, structuralSharing: false, staleTime: 60_000 })
