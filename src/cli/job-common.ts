import { type Bench, type JobEdited, jobNamed, onBench, partStory } from '#bench'
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
export function sayEdited(
  { job, edit, parts }: JobEdited,
  o: JobOptions,
  say: string,
  notes: readonly string[] = [],
): void {
  if (o.json === true)
    printJson({ format: 'germane/job-edit/1', job: job.id, name: job.name, edit: edit ?? null, parts })
  else printLines([edit === undefined ? 'Nothing was changed.' : say, ...notes])
}

/** What a person may have missed of a part that goes into a position: another type, or a part that is broken. */
export async function partNotes(
  bench: Bench,
  job: Job,
  ref: string | undefined,
  tag: string,
): Promise<readonly string[]> {
  const { part, kept } = await partStory(bench, tag)
  const wanted = job.positions.find((one) => one.ref === ref)?.type
  const state = kept.at(-1)?.judged.results.find((r) => r.part === tag)?.state ?? 'measured'
  return [
    ...(wanted === undefined || part.type === undefined || part.type === wanted
      ? []
      : [`${tag} is of type ${part.type}; ${ref} asks for ${wanted}.`]),
    ...(state === 'measured'
      ? []
      : [`${tag} was found ${state === 'short' ? 'shorted' : 'open'} when it was read last.`]),
  ]
}
