import { type Bench, type JobEdited, jobNamed, onBench } from '#bench'
import { FaultError } from '#core/fault'
import type { Job } from '#core/job'
import { benchOptions } from './options.ts'
import { printJson, printLines } from './output.ts'

export interface JobOptions {
  readonly book?: string
  readonly json?: boolean
}

/** Does something with a job that is named. */
export const onJob = (name: string, o: JobOptions, use: (bench: Bench, job: Job) => Promise<void>): Promise<void> =>
  onBench(benchOptions(o, true), async (bench) => use(bench, await jobNamed(bench, name)))

/** @throws {FaultError} `usage` where no change was named */
export function requireChange(changes: object, options: string): void {
  if (Object.keys(changes).length > 0) return
  throw new FaultError({
    code: 'usage',
    problem: 'No change was named',
    mend: `Add ${options}; an empty text takes a value away.`,
  })
}

/** What an edit did, for people or scripts. */
export function sayEdited({ job, edit, parts }: JobEdited, o: JobOptions, say: string): void {
  if (o.json === true)
    printJson({ format: 'germane/job-edit/1', job: job.id, name: job.name, edit: edit ?? null, parts })
  else printLines([edit === undefined ? 'Nothing was changed.' : say])
}
