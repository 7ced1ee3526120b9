import type { ChangeEvent } from '#api'

type Hear = (event: ChangeEvent) => void
type Tell = (isConnected: boolean) => void

/** Opens a stream of the server's events; gives the function that closes it. */
export type OpenStream = (hear: Hear, tell: Tell) => () => void

/** What windows of one browser say to each other. */
type Word =
  | { readonly kind: 'event'; readonly event: ChangeEvent }
  | { readonly kind: 'state'; readonly isConnected: boolean }
  | { readonly kind: 'ask' }

const name = 'germane/events'

/**
 * Listens to one stream with all windows of this browser: a browser opens few connections to one address, and windows
 * that each kept one would soon have none left for anything else. The window that holds a lock keeps the stream and
 * passes on what it hears; when it closes, the browser gives the lock to the next one. Where there are no such locks
 * (they are for this computer's own address and for https), each window keeps its own stream.
 *
 * The first word of a stream says where the book stands. A window that has just fetched what it shows is not told; one
 * that takes the stream over is, since something may have changed between the two.
 */
export function shareStream(open: OpenStream, hear: Hear, tell: Tell): () => void {
  const locks = navigator.locks as LockManager | undefined
  if (locks === undefined || typeof BroadcastChannel === 'undefined') return open(withoutGreeting(hear), tell)
  const channel = new BroadcastChannel(name)
  const end = new AbortController()
  // A stream that ends tells so once more, when nobody listens any longer.
  const say = (word: Word): void => {
    if (!end.signal.aborted) channel.postMessage(word)
  }
  let isLeading = false
  let isConnected = true
  let isLate = false
  channel.onmessage = ({ data }: MessageEvent<Word>) => {
    if (data.kind === 'ask') {
      if (isLeading) say({ kind: 'state', isConnected })
      return
    }
    isLate = true
    if (data.kind === 'event') hear(data.event)
    else tell(data.isConnected)
  }
  const lead = (): (() => void) => {
    isLeading = true
    const own = isLate ? hear : withoutGreeting(hear)
    return open(
      (event) => {
        own(event)
        say({ kind: 'event', event })
      },
      (now) => {
        isConnected = now
        tell(now)
        say({ kind: 'state', isConnected })
      },
    )
  }
  locks
    .request(name, { signal: end.signal }, () => {
      // the lock may come in the moment in which it was given up
      if (end.signal.aborted) return
      const close = lead()
      return new Promise<void>((keep) => {
        end.signal.addEventListener('abort', () => {
          close()
          keep()
        })
      })
    })
    // Given up while it waited for its turn.
    .catch(() => undefined)
  say({ kind: 'ask' })
  return () => {
    end.abort()
    channel.close()
  }
}

/** Hears everything but the first word of a stream. */
function withoutGreeting(hear: Hear): Hear {
  let isFirst = true
  return (event) => {
    if (!isFirst || event.kind !== 'book') hear(event)
    isFirst = false
  }
}
