import type { ChangeEvent } from './event.ts'

interface Stream {
  onmessage: ((message: { readonly data: string }) => void) | null
  onopen: (() => void) | null
  onerror: (() => void) | null
  close(): void
}

/** Listens to the events of a server; gives the function that stops it. */
export function listenTo(
  url: string,
  listen: (event: ChangeEvent) => void,
  onState: (isConnected: boolean) => void = () => undefined,
): () => void {
  const { EventSource } = globalThis as unknown as { EventSource: new (url: string) => Stream }
  const stream = new EventSource(url)
  stream.onmessage = (message) => listen(JSON.parse(message.data) as ChangeEvent)
  stream.onopen = () => onState(true)
  stream.onerror = () => onState(false)
  return () => stream.close()
}
