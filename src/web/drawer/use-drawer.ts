import { useQuery } from '@tanstack/react-query'
import { api, drawerHeadQuery, queryClient, queryKeys, whenIdle } from '#web/live'
import { changed, type Parts, partsOf, withMore } from './parts.ts'

/** Blocks fetched with each further step. */
const more = 16

/** What has come is shown again when there is so many times as much: each time the whole list is laid anew. */
const growth = 4

/** The whole list, its beginning shown as soon as it is there; the rest comes while nothing else is to be done. */
async function fetchAll(): Promise<Parts> {
  const first = await queryClient.fetchQuery(drawerHeadQuery)
  let parts = partsOf(first)
  let shown = 0
  let hasChanged = false
  for (let from = first.blocks.length; parts.count < parts.total; ) {
    if (parts.count >= growth * shown) {
      queryClient.setQueryData(queryKeys.drawer, parts)
      shown = parts.count
    }
    await whenIdle()
    const next = await api.drawer(from, more)
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
