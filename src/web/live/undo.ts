import { useSyncExternalStore } from 'react'
import { announce } from './announce.tsx'
import { api } from './api.ts'

/** What was just done, and the number of the edit that can take it back. */
export interface Done {
  readonly say: string
  readonly edit?: number
}

let done: Done | undefined
let until: ReturnType<typeof setTimeout> | undefined
const watchers = new Set<() => void>()

/** How long the offer to undo stands, ms. Every edit can be undone later as well, from the start page. */
const offeredFor = 12_000

function show(what: Done | undefined): void {
  done = what
  if (until !== undefined) clearTimeout(until)
  if (what !== undefined) until = setTimeout(() => show(undefined), offeredFor)
  for (const tell of watchers) tell()
}

/** Says what was done, with the offer to undo it. */
export function sayDone(what: Done): void {
  announce(what.edit === undefined ? what.say : `${what.say} Press u to undo.`)
  show(what)
}

/** Undoes an edit, the one offered where none is named; says why where that cannot be: something newer stands on it. */
export function undo(edit: number | undefined = done?.edit): void {
  api.undo(edit).then(
    (undone) => sayDone({ say: `Undone: ${undone.undone.say}`, edit: undone.edit.id }),
    (error: Error) => sayDone({ say: error.message }),
  )
}

/** What was done last, as long as the offer to undo it stands. */
export const useDone = (): Done | undefined =>
  useSyncExternalStore(
    (tell) => {
      watchers.add(tell)
      return () => watchers.delete(tell)
    },
    () => done,
  )
