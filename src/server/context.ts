import type { Bench } from '#bench'
import type { DrawerCache } from './drawer-cache.ts'
import type { EventHub } from './event-hub.ts'
import type { Works } from './works.ts'

/** What the routes work with. */
export interface Context {
  /** The bench as it now is: with the testers and types that were saved since. */
  readonly bench: () => Bench
  /** Lays the bench anew, after testers or types were changed. */
  readonly refresh: () => Promise<void>
  readonly events: EventHub
  readonly drawer: DrawerCache
  readonly works: Works
  /** Version of Germane. */
  readonly version: string
}
