import { useEffect, useRef, useSyncExternalStore } from 'react'

/** A shortcut as it stands in the list that `?` opens. */
export interface Shortcut {
  /** Keys one after the other, blanks between: `/`, `g r`, `Escape`. */
  readonly keys: string
  /** What it does: "Go to the drawer." */
  readonly says: string
  /** Where it belongs in the list; `Anywhere` where left out. */
  readonly group?: string
}

interface Bound extends Shortcut {
  readonly run: () => void
}

const bound = new Set<Bound>()
const watchers = new Set<() => void>()
let listed: readonly Shortcut[] = []

function changed(): void {
  listed = [...bound].map(({ keys, says, group }) => ({ keys, says, ...(group === undefined ? {} : { group }) }))
  for (const tell of watchers) tell()
}

function bind(shortcut: Bound): () => void {
  bound.add(shortcut)
  changed()
  return () => {
    bound.delete(shortcut)
    changed()
  }
}

/** Binds a shortcut while the component is there. It rests while a person types, save for `Escape`. */
export function useShortcut(shortcut: Shortcut, run: () => void): void {
  const latest = useRef(run)
  latest.current = run
  const { keys, says, group } = shortcut
  useEffect(
    () => bind({ keys, says, ...(group === undefined ? {} : { group }), run: () => latest.current() }),
    [keys, says, group],
  )
}

/** Every shortcut that works now. */
export const useShortcuts = (): readonly Shortcut[] =>
  useSyncExternalStore(
    (tell) => {
      watchers.add(tell)
      return () => watchers.delete(tell)
    },
    () => listed,
  )

/** Longest pause between the keys of one shortcut, ms. */
const pause = 1200

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable || target.matches('input:not([type=radio],[type=checkbox]), textarea, select'))

/** Starts to listen; called once by the page. Gives back the way to stop. */
export function listenToKeys(): () => void {
  let typed: readonly string[] = []
  let last = 0
  const onKey = (e: KeyboardEvent): void => {
    if (e.ctrlKey || e.metaKey || e.altKey || e.isComposing || e.defaultPrevented) return
    if (isTyping(e.target) && e.key !== 'Escape') return
    typed = e.timeStamp - last > pause ? [e.key] : [...typed.slice(-1), e.key]
    last = e.timeStamp
    const both = typed.join(' ')
    const found = latestOf(both) ?? latestOf(e.key)
    if (found === undefined) return
    e.preventDefault()
    typed = []
    found.run()
  }
  document.addEventListener('keydown', onKey)
  return () => document.removeEventListener('keydown', onKey)
}

/** What was bound last wins: a screen's own shortcut over the page's. */
const latestOf = (keys: string): Bound | undefined => [...bound].findLast((b) => b.keys === keys)
