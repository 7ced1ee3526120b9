import { curvesOfParts } from './curves-of-parts.ts'
import { drawerAndSearch } from './drawer-and-search.ts'
import { editsUndone } from './edits-undone.ts'
import { firstBook } from './first-book.ts'
import { jobsAndPositions } from './jobs-and-positions.ts'
import type { Migration } from './migration.ts'
import { upkeepOfTesters } from './upkeep-of-testers.ts'

export type { Migration } from './migration.ts'

/** All migrations in order; the place in the list is the number less one. New ones go at the end. */
export const migrations: readonly Migration[] = [
  firstBook,
  editsUndone,
  drawerAndSearch,
  curvesOfParts,
  jobsAndPositions,
  upkeepOfTesters,
]
