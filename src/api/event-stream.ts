import type { ChangeEvent } from './event.ts'

interface Stream {
  readonly readyState: number
  onmessage: ((message: { readonly data: string }) => void) | null
  onopen: (() => void) | null
  onerror: (() => void) | null
  close(): void
}

/** A stream that its server refused: the browser does not try it again by itself. */
const refused = 2

/** When a refused stream is tried again, ms. */
const againAfterMs = 3000

/** Listens to the events of a server; gives the function that stops it. */
export function listenTo(
  url: string,
  listen: (event: ChangeEvent) => void,
  onState: (isConnected: boolean) => void = () => undefined,
): () => void {
  const { EventSource } = globalThis as unknown as { EventSource: new (url: string) => Stream }
  let wait: ReturnType<typeof setTimeout> | undefined
  let stream: Stream
  const open = (): void => {
    stream = new EventSource(url)
    stream.onmessage = (message) => listen(JSON.parse(message.data) as ChangeEvent)
    stream.onopen = () => onState(true)
    stream.onerror = () => {
      onState(false)
      if (stream.readyState === refused) wait = setTimeout(open, againAfterMs)
    }
  }
  open()
  return () => {
    clearTimeout(wait)
    stream.close()
  }
}
