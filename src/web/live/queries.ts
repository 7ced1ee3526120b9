import { queryOptions } from '@tanstack/react-query'
import { api } from './api.ts'

/** Names under which answers are kept. Events make those under the first word stale. */
export const queryKeys = {
  book: ['book'],
  testers: ['testers'],
  tester: (id: string, version?: number) => ['testers', id, version ?? 'newest'],
  coverage: (tester: string, type: string) => ['testers', tester, 'coverage', type],
  types: ['types'],
  type: (type: string) => ['types', type],
  runs: ['runs'],
  run: (run: number) => ['runs', run],
  drawer: ['drawer'],
  /** Under the drawer: what changes a part there changes what can be matched. */
  match: ['drawer', 'match'],
  /** Under the drawer as well: its parts are among the candidates. */
  standIns: ['drawer', 'stand-ins'],
  part: (tag: string) => ['parts', tag],
  jobs: ['jobs'],
  job: (job: number) => ['jobs', job],
  edits: ['edits'],
  works: ['works'],
} as const

/** What the book keeps of the upkeep of a tester. */
export const upkeepQuery = (id: string) =>
  queryOptions({ queryKey: [...queryKeys.testers, id, 'upkeep'], queryFn: () => api.upkeep(id) })
export const bookQuery = queryOptions({ queryKey: queryKeys.book, queryFn: () => api.bookSummary() })
export const testersQuery = queryOptions({ queryKey: queryKeys.testers, queryFn: () => api.testers() })
/** What each tester of the book is worth today. */
export const healthQuery = queryOptions({
  queryKey: [...queryKeys.testers, 'health'],
  queryFn: () => api.health(),
})
export const testerQuery = (id: string, version?: number) =>
  queryOptions({ queryKey: queryKeys.tester(id, version), queryFn: () => api.tester(id, version) })
export const typesQuery = queryOptions({ queryKey: queryKeys.types, queryFn: () => api.types(), gcTime: Infinity })
export const typeQuery = (type: string) =>
  queryOptions({ queryKey: queryKeys.type(type), queryFn: () => api.type(type) })
/** The beginning of the drawer, which its first rows are made of. */
export const drawerHeadQuery = queryOptions({
  queryKey: [...queryKeys.drawer, 'head'],
  queryFn: () => api.drawer(0, 1),
})
/** Under the drawer: what changes a part there may change what is held. */
export const heldTypesQuery = queryOptions({
  queryKey: [...queryKeys.drawer, 'types'],
  queryFn: () => api.heldTypes(),
})
export const openRunsQuery = queryOptions({
  queryKey: [...queryKeys.runs, 'open'],
  queryFn: () => api.runs({ state: 'open', limit: 20 }),
})
export const newestRunsQuery = queryOptions({
  queryKey: [...queryKeys.runs, 'newest'],
  queryFn: () => api.runs({ limit: 10 }),
})
export const matchOffersQuery = queryOptions({
  queryKey: [...queryKeys.match, 'offers'],
  queryFn: () => api.matchOffers(),
})
export const matchPartsQuery = (query: Parameters<typeof api.matchParts>[0]) =>
  queryOptions({ queryKey: [...queryKeys.match, 'parts', query], queryFn: () => api.matchParts(query) })
export const jobsQuery = queryOptions({ queryKey: queryKeys.jobs, queryFn: () => api.jobs() })
export const jobQuery = (job: number) => queryOptions({ queryKey: queryKeys.job(job), queryFn: () => api.job(job) })
export const editsQuery = queryOptions({ queryKey: queryKeys.edits, queryFn: () => api.edits(20) })
