import { startTransition, useEffect, useRef, useState } from 'react'
import { type Answered, startThread, type Task, type Told } from './task.ts'

interface AnswerState {
  readonly answered?: Answered
  readonly faults: readonly string[]
  readonly isBusy: boolean
}

/** The newest answer to what is asked; while one is being worked out only the newest question waits for it. */
export function useAnswer(task: Extract<Task, { kind: 'answer' }> | undefined): AnswerState {
  const [state, setState] = useState<AnswerState>({ faults: [], isBusy: true })
  const line = useRef<Line>(undefined)
  useEffect(() => {
    // an answer redraws much of the screen, and gives way to a slider that is moved meanwhile
    const own = new Line((told, isBusy) => startTransition(() => setState((before) => after(before, told, isBusy))))
    line.current = own
    return () => own.end()
  }, [])
  useEffect(() => {
    if (task !== undefined) line.current?.ask(task)
  }, [task])
  return state
}

const after = (before: AnswerState, told: Told | undefined, isBusy: boolean): AnswerState => ({
  ...(told?.kind === 'answer' ? { answered: told.answered } : before.answered && { answered: before.answered }),
  faults: told?.kind === 'fault' ? told.faults : told === undefined ? before.faults : [],
  isBusy,
})

/** A thread that is asked anew before it has answered: what was asked in between is left out. */
class Line {
  private readonly thread = startThread()
  private waiting: Task | undefined
  private isBusy = false

  constructor(private readonly tell: (told: Told | undefined, isBusy: boolean) => void) {
    this.thread.onmessage = (e: MessageEvent<Told>) => {
      const next = this.waiting
      this.waiting = undefined
      this.isBusy = next !== undefined
      this.tell(e.data, this.isBusy)
      if (next !== undefined) this.thread.postMessage(next)
    }
  }

  ask(task: Task): void {
    if (this.isBusy) {
      this.waiting = task
      return
    }
    this.isBusy = true
    this.tell(undefined, true)
    this.thread.postMessage(task)
  }

  end(): void {
    this.thread.terminate()
  }
}

/** Work in a thread of its own: what it told, whether it goes on, and a way to stop it. */
export interface ThreadWork {
  readonly run: (task: Task) => void
  readonly stop: () => void
  readonly isRunning: boolean
}

/** Starts a thread for each piece of work and ends it with the component; `onTold` hears all it says. */
export function useThread(onTold: (told: Told) => void): ThreadWork {
  const [isRunning, setRunning] = useState(false)
  const thread = useRef<Worker>(undefined)
  const heard = useRef(onTold)
  heard.current = onTold
  const stop = (): void => {
    thread.current?.terminate()
    thread.current = undefined
    setRunning(false)
  }
  useEffect(() => () => thread.current?.terminate(), [])
  const run = (task: Task): void => {
    thread.current?.terminate()
    const own = startThread()
    thread.current = own
    setRunning(true)
    own.onmessage = (e: MessageEvent<Told>) => {
      heard.current(e.data)
      const isLast = isEnd(task, e.data)
      if (isLast && thread.current === own) stop()
    }
    own.postMessage(task)
  }
  return { run, stop, isRunning }
}

/** Whether work has ended with what was told. */
const isEnd = (task: Task, told: Told): boolean =>
  told.kind === 'fault' || told.kind === task.kind || (task.kind === 'rank' && told.kind === 'done')
