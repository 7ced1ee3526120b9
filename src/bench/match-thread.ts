import { Worker } from 'node:worker_threads'
import { type Fault, FaultError } from '#core/fault'
import { type MatchAnswer, type MatchPart, type MatchRequest, matchPartsProven } from '#core/match'
import { programmeSolver } from './programme-solver.ts'

/** What the thread is given. */
export interface MatchTask {
  readonly parts: readonly MatchPart[]
  readonly request: MatchRequest
  /** 1 asks it to stop. */
  readonly flag: Int32Array
}

export type FromMatcher =
  | { readonly kind: 'left'; readonly left: number }
  | { readonly kind: 'answer'; readonly answer: MatchAnswer }
  | { readonly kind: 'faults'; readonly faults: readonly Fault[] }

export interface Matching {
  /** The program of the thread. */
  readonly workerFile: string | URL
  /** Ends the work with the best found so far. */
  readonly signal: AbortSignal
  /** Told now and then how much is left: single parts, or tries. */
  readonly onLeft?: (left: number) => void
}

/** Work for this thread: what takes less time than starting another. */
const isShort = (parts: readonly MatchPart[], { size }: MatchRequest): boolean =>
  parts.length <= (size === 2 ? 400 : 16)

/**
 * Finds sets as `matchPartsProven` does, in a thread of its own where that takes a while, so that it can be watched and
 * stopped.
 *
 * @throws {FaultError} as `matchPartsProven`
 */
export async function matchWatched(
  parts: readonly MatchPart[],
  request: MatchRequest,
  { workerFile, signal, onLeft }: Matching,
): Promise<MatchAnswer> {
  if (isShort(parts, request)) return matchPartsProven(parts, request, await programmeSolver())
  const flag = new Int32Array(new SharedArrayBuffer(4))
  const task: MatchTask = { parts, request, flag }
  const worker = new Worker(workerFile, { workerData: task })
  const stop = (): void => void Atomics.store(flag, 0, 1)
  signal.addEventListener('abort', stop)
  try {
    return await new Promise<MatchAnswer>((found, fail) => {
      worker.on('error', fail)
      worker.on('message', (message: FromMatcher) => {
        if (message.kind === 'left') onLeft?.(message.left)
        else if (message.kind === 'answer') found(message.answer)
        else fail(new FaultError(message.faults))
      })
    })
  } finally {
    signal.removeEventListener('abort', stop)
    await worker.terminate()
  }
}
