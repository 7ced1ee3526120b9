import { type ApiClient, ApiFault, type ReadingTaken } from '#api'
import { noteRefused, putDown, type Store, strikeOff, type Unsent, unsentIn } from './kept.ts'

/** How sending stands. */
export interface Sending {
  readonly unsent: readonly Unsent[]
  /** False once the server did not answer, until it does. */
  readonly isReachable: boolean
}

export interface Sender {
  readonly state: () => Sending
  readonly watch: (tell: () => void) => () => void
  /** Keeps a reading in the browser and sends it as soon as the server takes it. */
  readonly send: (one: Unsent) => void
  /** Tries now, not at the end of the pause. */
  readonly tryNow: () => void
  readonly again: (clientId: string) => void
  readonly giveUp: (clientId: string) => void
}

/** Longest pause between two tries, ms. */
const longestPause = 4000

/**
 * Brings readings to the book one after the other, in the order in which they were typed, and again and again while
 * the server does not answer.
 */
export function sender(
  api: Pick<ApiClient, 'addReading' | 'correctReading'>,
  store: Store,
  onTaken: (one: Unsent, taken: ReadingTaken) => void,
): Sender {
  let state: Sending = { unsent: unsentIn(store), isReachable: true }
  let isBusy = false
  let pause = 250
  let timer: ReturnType<typeof setTimeout> | undefined
  const watchers = new Set<() => void>()
  const changed = (isReachable = state.isReachable): void => {
    state = { unsent: unsentIn(store), isReachable }
    for (const tell of watchers) tell()
  }
  const later = (): void => {
    timer = setTimeout(() => void flush(), pause)
    pause = Math.min(longestPause, pause * 2)
  }
  const flush = async (): Promise<void> => {
    if (isBusy) return
    isBusy = true
    clearTimeout(timer)
    for (let next = firstOf(store); next !== undefined; next = firstOf(store)) {
      const outcome = await sendOne(api, next)
      if (outcome === 'unreachable') {
        changed(false)
        later()
        break
      }
      pause = 250
      if (typeof outcome === 'string') noteRefused(store, next.body.clientId, outcome)
      else strikeOff(store, next.body.clientId)
      changed(true)
      if (typeof outcome !== 'string') onTaken(next, outcome)
    }
    isBusy = false
  }
  void flush()
  return {
    state: () => state,
    watch: (tell) => {
      watchers.add(tell)
      return () => watchers.delete(tell)
    },
    send: (one) => {
      putDown(store, one)
      changed()
      void flush()
    },
    tryNow: () => void flush(),
    again: (clientId) => {
      noteRefused(store, clientId)
      changed()
      void flush()
    },
    giveUp: (clientId) => {
      strikeOff(store, clientId)
      changed()
    },
  }
}

const firstOf = (store: Store): Unsent | undefined => unsentIn(store).find((u) => u.refused === undefined)

/** What the book made of it; `unreachable`, or another text: the sentence of its refusal. */
async function sendOne(
  api: Pick<ApiClient, 'addReading' | 'correctReading'>,
  { run, body, corrects }: Unsent,
): Promise<ReadingTaken | string> {
  try {
    if (corrects === undefined) return await api.addReading(run, body)
    const { clientId, seen, range } = body
    return await api.correctReading(run, corrects, { clientId, seen, ...(range === undefined ? {} : { range }) })
  } catch (e) {
    if (e instanceof ApiFault && e.status < 500) return e.message
    return 'unreachable'
  }
}
