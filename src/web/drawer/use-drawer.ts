import { useQuery } from '@tanstack/react-query'
import { api, queryClient, queryKeys } from '#web/live'
import { changed, type Parts, partsOf, withMore } from './parts.ts'

/** Blocks fetched first, so that the first rows stand at once, and then with each further step. */
const blocks = { first: 2, more: 8 } as const

/** The whole list, its beginning shown as soon as it is there. */
async function fetchAll(): Promise<Parts> {
  const first = await api.drawer(0, blocks.first)
  let parts = partsOf(first)
  let hasChanged = false
  for (let from = first.blocks.length; parts.count < parts.total; ) {
    queryClient.setQueryData(queryKeys.drawer, parts)
    const next = await api.drawer(from, blocks.more)
    if (next.blocks.length === 0) break
    hasChanged ||= next.version !== first.version
    from += next.blocks.length
    parts = withMore(parts, next)
  }
  return hasChanged ? changed(parts, await api.drawerChanges(first.version)) : parts
}

/** All parts: fetched whole the first time, then only what changed. */
async function fetchParts(): Promise<Parts> {
  const before = queryClient.getQueryData<Parts>(queryKeys.drawer)
  if (before === undefined || before.count === 0 || before.count < before.total) return fetchAll()
  const changes = await api.drawerChanges(before.version)
  // A book that was put back to an earlier state has less than is held here.
  if (changes.count < before.count || changes.version < before.version) return fetchAll()
  return changed(before, changes)
}

export const useParts = () =>
  useQuery({ queryKey: queryKeys.drawer, queryFn: fetchParts, structuralSharing: false, staleTime: 60_000 })
