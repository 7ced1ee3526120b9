import { parentPort, workerData } from 'node:worker_threads'
import { FaultError } from '#core/fault'
import { matchPartsProven } from '#core/match'
import type { FromMatcher, MatchTask } from './match-thread.ts'
import { programmeSolver } from './programme-solver.ts'

/** A thread that finds sets: it tells how far it is, stops when it is asked to, and gives the best it has. */
const { parts, request, flag } = workerData as MatchTask
const tell = (message: FromMatcher): void => parentPort?.postMessage(message)

const pauseMs = 200
let told = performance.now()

function keepOn(left: number): boolean {
  if (performance.now() - told > pauseMs) {
    told = performance.now()
    tell({ kind: 'left', left })
  }
  return Atomics.load(flag, 0) === 0
}

try {
  tell({ kind: 'answer', answer: matchPartsProven(parts, request, await programmeSolver(), keepOn) })
} catch (error) {
  if (!(error instanceof FaultError)) throw error
  tell({ kind: 'faults', faults: error.faults })
}
