import { randomUUID } from 'node:crypto'
import { Worker } from 'node:worker_threads'
import type { Work, WorkBody } from '#api'
import { type Fault, FaultError } from '#core/fault'
import type { EventHub } from './event-hub.ts'
import { Refused, saidFaults } from './said.ts'
import type { FromWorker, WorkerTask } from './worker-messages.ts'

/** Long work, each in a thread of its own. */
export interface Works {
  readonly list: () => readonly Work[]
  /** @throws {FaultError} `not-found` */
  readonly get: (id: string) => Work
  readonly start: (wanted: WorkBody) => Work
  readonly cancel: (id: string) => Promise<Work>
  /** Does work and waits for it. @throws {FaultError} why it failed; {Refused} it was cancelled */
  readonly finished: (wanted: WorkBody) => Promise<Work>
  /** The page a report made. @throws {FaultError} `not-found` */
  readonly page: (id: string) => string
  /** Ends all of it; for when the server stops. */
  readonly close: () => Promise<void>
}

export interface WorksOptions {
  readonly bookFile: string
  /** The program of the threads. */
  readonly workerFile: string | URL
  readonly now: () => string
  readonly events: EventHub
  /** Called when work that writes has ended, so that the bench is laid anew. */
  readonly onEnd: () => Promise<void>
}

/** How much goes on at once, and how much of what has ended is remembered. */
const atOnce = 2
const remembered = 50
/** How long work may take to notice that it was cancelled, ms. */
const graceMs = 3000
/** How often progress is told, ms. */
const tellEveryMs = 100

interface Job {
  work: Work
  readonly worker: Worker
  /** Set to 1 by the server to say that it is to stop. */
  readonly flag: Int32Array
  readonly ended: Promise<void>
  page?: string
  faults?: readonly Fault[]
}

export function works(options: WorksOptions): Works {
  const jobs = new Map<string, Job>()
  const found = (id: string): Job => {
    const job = jobs.get(id)
    if (job !== undefined) return job
    throw new FaultError({ code: 'not-found', what: 'work', name: id, near: [] })
  }
  const begin = (wanted: WorkBody): Job => {
    requireRoom(jobs)
    forgetOldest(jobs)
    const job = startJob(wanted, options)
    jobs.set(job.work.id, job)
    return job
  }
  const cancel = async (job: Job): Promise<void> => {
    if (job.work.state !== 'running') return
    Atomics.store(job.flag, 0, 1)
    const late = setTimeout(() => void job.worker.terminate(), graceMs)
    await job.ended
    clearTimeout(late)
  }
  return {
    list: () => [...jobs.values()].map((job) => job.work).reverse(),
    get: (id) => found(id).work,
    start: (wanted) => begin(wanted).work,
    cancel: async (id) => {
      const job = found(id)
      await cancel(job)
      return job.work
    },
    finished: async (wanted) => {
      const job = begin(wanted)
      await job.ended
      if (job.work.state === 'done') return job.work
      if (job.faults !== undefined) throw new FaultError(job.faults)
      throw new Refused(409, 'It was cancelled', 'Ask for it again.')
    },
    page: (id) => {
      const { page } = found(id)
      if (page !== undefined) return page
      throw new FaultError({ code: 'not-found', what: 'page made by the work', name: id, near: [] })
    },
    close: async () => {
      await Promise.all([...jobs.values()].map(cancel))
    },
  }
}

const isRunning = (job: Job): boolean => job.work.state === 'running'

function requireRoom(jobs: ReadonlyMap<string, Job>): void {
  if ([...jobs.values()].filter(isRunning).length < atOnce) return
  throw new Refused(409, 'Other long work is going on', 'Wait until it has ended, or cancel it.')
}

function forgetOldest(jobs: Map<string, Job>): void {
  for (const [id, job] of jobs) {
    if (jobs.size < remembered) return
    if (!isRunning(job)) jobs.delete(id)
  }
}

function titleOf(wanted: WorkBody): string {
  switch (wanted.kind) {
    case 'import':
      return `Readings from ${wanted.file}`
    case 'fill':
      return `${wanted.parts} invented parts`
    case 'report':
      return `Report${wanted.title === undefined ? '' : `: ${wanted.title}`}`
  }
}

function startJob(wanted: WorkBody, options: WorksOptions): Job {
  const flag = new Int32Array(new SharedArrayBuffer(4))
  const task: WorkerTask = { bookFile: options.bookFile, wanted, flag }
  const worker = new Worker(options.workerFile, { workerData: task })
  const begun: Work = {
    id: randomUUID(),
    kind: wanted.kind,
    title: titleOf(wanted),
    state: 'running',
    done: 0,
    of: 0,
    say: 'Starting',
    startedAt: options.now(),
  }
  let end: () => void = () => undefined
  const job: Job = { work: begun, worker, flag, ended: new Promise((keep) => (end = keep)) }
  listenTo(job, options, end)
  options.events.tell({ kind: 'work', work: job.work })
  return job
}

/** Follows a thread until it has ended, whichever way. */
function listenTo(job: Job, { events, now, onEnd }: WorksOptions, end: () => void): void {
  let last = 0
  let result: Partial<Work> | undefined
  job.worker.on('message', (message: FromWorker) => {
    if (message.kind === 'progress') {
      const { done, of, say } = message
      const isTold = say !== job.work.say || performance.now() - last > tellEveryMs
      job.work = { ...job.work, done, of, say }
      if (!isTold) return
      last = performance.now()
      events.tell({ kind: 'work', work: job.work })
    } else result = resultOf(job, message)
  })
  job.worker.on('error', (error) => {
    result ??= { state: 'failed', say: 'Failed', faults: saidFaults([failed(error)]) }
  })
  job.worker.on('exit', () => {
    result ??= { state: 'cancelled', say: 'Cancelled' }
    job.work = { ...job.work, ...result, endedAt: now() }
    void onEnd().finally(() => {
      events.tell({ kind: 'work', work: job.work })
      end()
    })
  })
}

function resultOf(job: Job, message: Exclude<FromWorker, { kind: 'progress' }>): Partial<Work> {
  switch (message.kind) {
    case 'cancelled':
      return { state: 'cancelled', say: 'Cancelled' }
    case 'failed':
      job.faults = message.faults
      return { state: 'failed', say: 'Failed', faults: saidFaults(message.faults) }
    case 'made': {
      const { page, ...made } = message.made
      if (page !== undefined) job.page = page
      const url = page === undefined ? {} : { url: `/api/work/${job.work.id}/page` }
      return {
        state: 'done',
        say: 'Done',
        done: Math.max(job.work.of, 1),
        of: Math.max(job.work.of, 1),
        made: { ...made, ...url },
      }
    }
  }
}

const failed = (error: Error) =>
  ({
    code: 'usage',
    problem: `The work ended with an error (${error.message})`,
    mend: 'What was kept before is in the book.',
  }) as const
