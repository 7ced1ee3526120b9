export { announce, LiveRegion } from './announce.tsx'
export { queryClient } from './query-client.ts'
export { useScreenTitle } from './screen-title.ts'
