import { setImmediate as turn } from 'node:timers/promises'
import { Worker } from 'node:worker_threads'
import { type CurveFile, type FitOutcome, type FitWishes, fitFile } from './fit.ts'

/** A file of a drawer: its text, or what became of it already. */
export type DrawerFile = CurveFile | FitOutcome

export interface DrawerWishes {
  readonly files: readonly DrawerFile[]
  readonly wishes: FitWishes
  /** Threads at most. */
  readonly workers: number
  /** The program of the threads. */
  readonly workerFile: string | URL
  /** Stops the fits; what is done is kept. */
  readonly signal: AbortSignal
  /** Told after each file. */
  readonly onDone?: (done: number, of: number) => void
}

/** What became of a drawer of curves, in the order of its files whatever the order in which they were fitted. */
export interface FittedDrawer {
  readonly outcomes: readonly FitOutcome[]
  /** Files that were named. */
  readonly of: number
  readonly isStopped: boolean
}

/** What a thread is handed at once, and what it hands back. */
export interface FitBatch {
  readonly files: readonly CurveFile[]
  readonly wishes: FitWishes
}

/** Files handed to a thread at once: enough that handing over costs little, few enough that none waits at the end. */
const batchSize = 4

/** Fewest files for which a thread more is worth its start. */
const worthThread = 24

/**
 * Fits a drawer of curves, each file by itself, on several threads. A file that cannot be used does not stop the others.
 * The same files give the same answer on any number of threads.
 */
export async function fitDrawer(d: DrawerWishes): Promise<FittedDrawer> {
  const of = d.files.length
  const found: (FitOutcome | undefined)[] = d.files.map((f) => ('text' in f ? undefined : f))
  const waiting = d.files.flatMap((f, index) => ('text' in f ? [{ index, file: f }] : []))
  let done = of - waiting.length
  const keep = (index: number, outcome: FitOutcome): void => {
    found[index] = outcome
    done += 1
    d.onDone?.(done, of)
  }
  const threads = Math.min(d.workers, Math.ceil(waiting.length / worthThread))
  if (threads < 2) await here(waiting, d, keep)
  else await Promise.all(Array.from({ length: threads }, () => thread(waiting, d, keep)))
  return { outcomes: found.filter((o) => o !== undefined), of, isStopped: found.includes(undefined) }
}

interface Waiting {
  readonly index: number
  readonly file: CurveFile
}

type Keep = (index: number, outcome: FitOutcome) => void

/** Fits in this thread, taking turns with whatever else is to be heard. */
async function here(waiting: Waiting[], { wishes, signal }: DrawerWishes, keep: Keep): Promise<void> {
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    keep(next.index, fitFile(next.file, wishes))
    await turn()
    if (signal.aborted) return
  }
}

/** One thread, handed files until none waits or the signal comes. */
function thread(waiting: Waiting[], { wishes, workerFile, signal }: DrawerWishes, keep: Keep): Promise<void> {
  const worker = new Worker(workerFile)
  let given: readonly Waiting[] = []
  return new Promise<void>((end, fail) => {
    const finish = (): void => {
      signal.removeEventListener('abort', finish)
      void worker.terminate().then(() => end())
    }
    const hand = (): void => {
      given = waiting.splice(0, batchSize)
      if (given.length === 0 || signal.aborted) finish()
      else worker.postMessage({ files: given.map((g) => g.file), wishes } satisfies FitBatch)
    }
    worker.on('message', (outcomes: readonly FitOutcome[]) => {
      if (!signal.aborted) for (const [i, outcome] of outcomes.entries()) keep(given[i]!.index, outcome)
      hand()
    })
    worker.on('error', fail)
    signal.addEventListener('abort', finish)
    hand()
  })
}
