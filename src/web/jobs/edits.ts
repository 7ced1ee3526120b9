import { useState } from 'react'
import type { JobChanges, JobEdited, PositionChanges } from '#api'
import { api, queryClient, queryKeys, sayDone } from '#web/live'

/** Waits for an edit of a job, shows the job as it then is, and offers to undo it. */
export async function kept(doing: Promise<JobEdited>, say: string): Promise<JobEdited> {
  const done = await doing
  await queryClient.invalidateQueries({ queryKey: queryKeys.jobs })
  if (done.edit !== undefined) sayDone({ say, edit: done.edit })
  return done
}

export const keepJobField = (job: number, name: string, field: string, changes: JobChanges): Promise<JobEdited> =>
  kept(api.changeJob(job, changes), `${field} of ${name} changed.`)

export const keepPosition = (job: number, ref: string, say: string, changes: PositionChanges): Promise<JobEdited> =>
  kept(api.changePosition(job, ref, changes), say)

/** Does something that may be refused, and keeps the reason. */
export function useTried(): {
  readonly fault: string | undefined
  readonly tried: (doing: () => Promise<unknown>) => void
} {
  const [fault, setFault] = useState<string>()
  return {
    fault,
    tried: (doing) => {
      setFault(undefined)
      doing().catch((e: unknown) => setFault(e instanceof Error ? e.message : String(e)))
    },
  }
}
