import type { NewReading } from '#api'
import type { Reading } from '#core/tester'

/** Where the person stands in a run. Kept in this browser, so that closing or reloading the page loses nothing. */
export interface Place {
  readonly part: string
  /** Index of the step. */
  readonly at: number
  /** What stands in the field and is not sent off yet. */
  readonly draft?: Draft
}

export interface Draft {
  /** Id of the step. */
  readonly step: string
  readonly text: string
  readonly unit?: string
  /** Range or gain span, where it is not the one of the step. */
  readonly range?: string
}

/** A reading on its way to the book. The book takes one `clientId` once, however often it is sent. */
export interface Unsent {
  readonly run: number
  readonly body: NewReading
  /** The same, as the page understands it. */
  readonly reading: Reading
  /** Number of the reading in the book that it corrects, where that was read on another range. */
  readonly corrects?: number
  /** Why the book would not take it. */
  readonly refused?: string
}

/** The part of the browser's store that is used here. */
export type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>

const unsentKey = 'germane/unsent'
const placeKey = (run: number): string => `germane/run/${run}`

function read<T>(store: Store, key: string): T | undefined {
  const text = store.getItem(key)
  if (text === null) return undefined
  try {
    return JSON.parse(text) as T
  } catch {
    return undefined
  }
}

/** Readings not known to be in the book, oldest first. */
export const unsentIn = (store: Store): readonly Unsent[] => read<readonly Unsent[]>(store, unsentKey) ?? []

const keepUnsent = (store: Store, all: readonly Unsent[]): void =>
  all.length === 0 ? store.removeItem(unsentKey) : store.setItem(unsentKey, JSON.stringify(all))

/** Puts a reading down to be sent. Done before it is sent, so that it is not lost on the way. */
export const putDown = (store: Store, one: Unsent): void => keepUnsent(store, [...unsentIn(store), one])

/** Strikes a reading off: the book has it, or the person gave it up. */
export const strikeOff = (store: Store, clientId: string): void =>
  keepUnsent(
    store,
    unsentIn(store).filter((u) => u.body.clientId !== clientId),
  )

/** Notes why the book would not take a reading; nothing: it is to be sent again. */
export const noteRefused = (store: Store, clientId: string, refused?: string): void =>
  keepUnsent(
    store,
    unsentIn(store).map(({ refused: before, ...u }) => {
      const why = u.body.clientId === clientId ? refused : before
      return why === undefined ? u : { ...u, refused: why }
    }),
  )

export const placeIn = (store: Store, run: number): Place | undefined => read<Place>(store, placeKey(run))
export const keepPlace = (store: Store, run: number, place: Place): void =>
  store.setItem(placeKey(run), JSON.stringify(place))
export const forgetPlace = (store: Store, run: number): void => store.removeItem(placeKey(run))
