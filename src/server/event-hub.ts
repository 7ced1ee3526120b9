import type { ChangeEvent } from '#api'

/** Tells all windows which thing changed. */
export interface EventHub {
  readonly tell: (event: ChangeEvent) => void
  /** Gives the function that stops it. */
  readonly listen: (hear: (event: ChangeEvent) => void) => () => void
  readonly listeners: () => number
}

export function eventHub(): EventHub {
  const ears = new Set<(event: ChangeEvent) => void>()
  return {
    tell: (event) => {
      for (const hear of ears) hear(event)
    },
    listen: (hear) => {
      ears.add(hear)
      return () => ears.delete(hear)
    },
    listeners: () => ears.size,
  }
}

/** So many tags are named in an event; of more it is said that the book changed. */
const tagsAtMost = 200

/** The event for a change of parts. */
export const partsEvent = (tags: readonly string[], version: number, window: string | undefined): ChangeEvent =>
  tags.length > tagsAtMost
    ? { kind: 'book', version }
    : { kind: 'parts', tags: [...tags], version, ...(window === undefined ? {} : { window }) }
