import { parentPort, workerData } from 'node:worker_threads'
import type { WorkBody } from '#api'
import {
  type Bench,
  Cancelled,
  fillBook,
  onBench,
  type Progress,
  reportOfKept,
  takeFile,
  testerNamed,
  waitOutside,
} from '#bench'
import { FaultError } from '#core/fault'
import type { FromWorker, Made, WorkerTask } from './worker-messages.ts'

/** A thread for long work: it opens the book for itself, does one thing and ends. */
const { bookFile, wanted, flag } = workerData as WorkerTask
const tell = (message: FromWorker): void => parentPort?.postMessage(message)

const progress: Progress = {
  tell: (done, of, say) => tell({ kind: 'progress', done, of, say }),
  isCancelled: () => Atomics.load(flag, 0) === 1,
}

async function make(bench: Bench, work: WorkBody): Promise<Made> {
  switch (work.kind) {
    case 'fill':
      return { parts: await fillBook(bench, work, progress) }
    case 'report': {
      const { tags, lot, title, notes, workings } = work
      const filter = { ...(tags === undefined ? {} : { tags }), ...(lot === undefined ? {} : { lot }) }
      const wishes = {
        ...(title === undefined ? {} : { title }),
        ...(notes === undefined ? {} : { notes }),
        ...(workings === undefined ? {} : { workings }),
      }
      return { page: await reportOfKept(bench, filter, wishes, progress) }
    }
    case 'import':
      return takeImport(bench, work)
  }
}

async function takeImport(bench: Bench, work: Extract<WorkBody, { kind: 'import' }>): Promise<Made> {
  const known = testerNamed(bench, work.tester)
  const { text, file, lot, ambientC, ambientU, again } = work
  const input = {
    text,
    file,
    known,
    tester: known.tester,
    ...(work.type === undefined ? {} : { typeName: work.type }),
    ...(lot === undefined ? {} : { lot }),
    ...(ambientC === undefined ? {} : { ambientC }),
    ...(ambientU === undefined ? {} : { ambientU }),
    ...(again === undefined ? {} : { again }),
  }
  const { run, judged } = await takeFile(bench, input, progress)
  return { run: run.id, parts: judged.results.length, notes: [...judged.notes] }
}

try {
  const made = await onBench({ bookFile, now: () => new Date().toISOString() }, (bench) => {
    waitOutside(bench)
    return make(bench, wanted)
  })
  tell({ kind: 'made', made })
} catch (error) {
  if (error instanceof Cancelled) tell({ kind: 'cancelled' })
  else if (error instanceof FaultError) tell({ kind: 'failed', faults: error.faults })
  else throw error
}
