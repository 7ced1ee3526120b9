import { parentPort } from 'node:worker_threads'
import { fitFile } from './fit.ts'
import type { FitBatch } from './fit-drawer.ts'

/** A thread that fits the files it is handed, until it is ended. */
parentPort?.on('message', ({ files, wishes }: FitBatch) =>
  parentPort?.postMessage(files.map((file) => fitFile(file, wishes))),
)
