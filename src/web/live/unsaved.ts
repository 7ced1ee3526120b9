import { useState } from 'react'

/** A longer text that is worked on, kept in this browser until it is saved or thrown away. */
export interface Unsaved {
  readonly text: string
  readonly setText: (text: string) => void
  /** Whether it is what was typed here before and neither saved nor thrown away. */
  readonly isFromBefore: boolean
  /** Forgets what was typed. */
  readonly forget: () => void
}

/**
 * Keeps a text one works on, so that neither another screen nor a reload loses it.
 *
 * @param name under which this browser keeps it: `tester/larkfield`
 * @param start what it begins with
 */
export function useUnsaved(name: string, start: string): Unsaved {
  const key = `germane/unsaved/${name}`
  const [before] = useState(() => window.localStorage.getItem(key))
  const [text, setText] = useState(before ?? start)
  const keep = (next: string): void => {
    if (next === start) window.localStorage.removeItem(key)
    else window.localStorage.setItem(key, next)
  }
  return {
    text,
    isFromBefore: before !== null && text === before && text !== start,
    setText: (next) => {
      keep(next)
      setText(next)
    },
    forget: () => window.localStorage.removeItem(key),
  }
}
