import { useSyncExternalStore } from 'react'

let said = ''
const watchers = new Set<() => void>()

/** Says something to those who listen to the page: "12 types found". The same words twice are said twice. */
export function announce(text: string): void {
  said = said === text ? `${text}\u00a0` : text
  for (const tell of watchers) tell()
}

/** The polite live region; it stands once, in the shell. */
export function LiveRegion() {
  const text = useSyncExternalStore(
    (tell) => {
      watchers.add(tell)
      return () => watchers.delete(tell)
    },
    () => said,
  )
  return (
    <div className="vh" role="status" aria-live="polite">
      {text}
    </div>
  )
}
