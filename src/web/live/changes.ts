import { useEffect, useRef, useSyncExternalStore } from 'react'
import type { ChangeEvent } from '#api'
import { api } from './api.ts'
import { queryClient } from './query-client.ts'
import { shareStream } from './shared-stream.ts'

type Listener = (event: ChangeEvent) => void

const listeners = new Set<Listener>()
const watchers = new Set<() => void>()
let isConnected = true

/** Which answers an event makes stale, by the first words of their names. */
function staleBy(event: ChangeEvent): readonly (readonly unknown[])[] {
  switch (event.kind) {
    case 'book':
      return [[]]
    case 'parts':
      return [['book'], ['drawer'], ['search'], ...event.tags.slice(0, 100).map((tag) => ['parts', tag])]
    case 'run':
      return [['book'], ['runs']]
    case 'job':
      return [['jobs'], ['parts'], ['search']]
    case 'tester':
      return [['testers'], ['book'], ['search']]
    case 'types':
      return [['types'], ['book'], ['search'], ['drawer', 'stand-ins']]
    case 'edits':
      return [['edits']]
    case 'work':
      return event.work.state === 'running' ? [['works']] : [['works'], ['book']]
  }
}

function onEvent(event: ChangeEvent): void {
  for (const listen of listeners) listen(event)
  for (const queryKey of staleBy(event)) void queryClient.invalidateQueries({ queryKey: [...queryKey] })
}

function onState(connected: boolean): void {
  isConnected = connected
  for (const tell of watchers) tell()
}

/** Starts to listen to the book; called once by the page. Gives back the way to stop. */
export const listenToBook = (): (() => void) => shareStream(api.events, onEvent, onState)

/** Hears every change of the book while the component is there, those of this window as well. */
export function useChanges(listen: Listener): void {
  const latest = useRef(listen)
  latest.current = listen
  useEffect(() => {
    const hear: Listener = (event) => latest.current(event)
    listeners.add(hear)
    return () => {
      listeners.delete(hear)
    }
  }, [])
}

/** Whether the server is there. */
export const useConnected = (): boolean =>
  useSyncExternalStore(
    (tell) => {
      watchers.add(tell)
      return () => watchers.delete(tell)
    },
    () => isConnected,
  )
