import { useEffect, useRef, useState } from 'react'
import type { StandInsAnswer, StandInUse } from '#api'
import { announce, api } from '#web/live'

/** A search for stand-ins, and what it found. */
export interface StandInSearch {
  readonly use: StandInUse
  /** What the last search that ended has found. */
  readonly found?: StandInsAnswer
  readonly isLooking: boolean
  readonly isStopped: boolean
  readonly fault?: string
  /** Looks; where it looks already, anew. */
  readonly begin: (use: StandInUse) => void
  readonly stop: () => void
}

type State = Omit<StandInSearch, 'begin' | 'stop'>

const idle: State = { use: {}, isLooking: false, isStopped: false }

/** Has the server look for what could stand in a position, where one asks for it. Ends with the component. */
export function useStandInSearch(position: string): StandInSearch {
  const [state, setState] = useState(idle)
  const ending = useRef<AbortController>(undefined)
  useEffect(() => () => ending.current?.abort(), [])
  const stop = (): void => {
    ending.current?.abort()
    setState((s) => ({ ...s, isLooking: false, isStopped: true }))
  }
  const begin = (use: StandInUse): void => {
    ending.current?.abort()
    const own = new AbortController()
    ending.current = own
    const end = (more: Partial<State>): void => {
      if (!own.signal.aborted) setState((s) => ({ ...s, isLooking: false, ...more }))
    }
    setState(({ fault: _, ...s }) => ({ ...s, use, isLooking: true, isStopped: false }))
    api.standInsAt({ ...use, position }, own.signal).then(
      (found) => {
        end({ found })
        announce(`${found.taken.length} could stand in here.`)
      },
      (e: unknown) => end({ fault: e instanceof Error ? e.message : String(e) }),
    )
  }
  return { ...state, begin, stop }
}
