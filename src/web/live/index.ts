export { announce, LiveRegion } from './announce.tsx'
export { api, windowName } from './api.ts'
export { listenToBook, useChanges, useConnected } from './changes.ts'
export { chosenTags, keepChosen } from './chosen.ts'
export { whenIdle } from './idle.ts'
export {
  bookQuery,
  drawerHeadQuery,
  editsQuery,
  healthQuery,
  heldTypesQuery,
  jobQuery,
  jobsQuery,
  matchOffersQuery,
  matchPartsQuery,
  newestRunsQuery,
  openRunsQuery,
  queryKeys,
  testerQuery,
  testersQuery,
  typeQuery,
  typesQuery,
  upkeepQuery,
} from './queries.ts'
export { queryClient } from './query-client.ts'
export { useRemembered } from './remembered.ts'
export { useScreenTitle } from './screen-title.ts'
export { type Done, sayDone, undo, useDone } from './undo.ts'
export { type Unsaved, useUnsaved } from './unsaved.ts'
