import {
  addJobText,
  addPositionTo,
  changeJob,
  changePosition,
  dropJob,
  dropPosition,
  type JobEdited,
  jobDocument,
  jobList,
  jobNamed,
  jobsDocument,
  jobsOfPart,
  keepJob,
  release,
  reserveFor,
  seeJob,
} from '#bench'
import type { Context } from './context.ts'
import type { Handlers } from './handler.ts'
import { photoAnswer, tellEdited, tellJob } from './part-handlers.ts'

type JobRoute =
  | 'jobs'
  | 'addJob'
  | 'addJobText'
  | 'job'
  | 'changeJob'
  | 'removeJob'
  | 'addPosition'
  | 'changePosition'
  | 'removePosition'
  | 'reserve'
  | 'release'
  | 'jobsOfPart'

export const jobHandlers: Handlers<JobRoute> = {
  jobs: async ({ bench }) => ({ jobs: jobsDocument(await jobList(bench())).jobs }),

  job: async ({ bench }, { params }) => {
    const seen = await seeJob(bench(), await jobNamed(bench(), params.job))
    const { format: _, ...document } = jobDocument(seen)
    return { ...document, photos: seen.photos.map(photoAnswer) }
  },

  addJob: (context, { body, window }) => {
    const begunOn = context.bench().now().slice(0, 10)
    const said = Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined && value !== ''))
    const job = { ...said, name: body.name, state: 'open', begunOn, positions: [], reserved: [] } as const
    return told(context, keepJob(context.bench(), job), window)
  },

  addJobText: (context, { body, window }) => told(context, addJobText(context.bench(), body.text, body.file), window),

  changeJob: (context, { params, body, window }) =>
    told(context, changeJob(context.bench(), params.job, body as Parameters<typeof changeJob>[2]), window),

  removeJob: (context, { params, window }) => told(context, dropJob(context.bench(), params.job), window),

  addPosition: (context, { params, body, window }) =>
    told(context, addPositionTo(context.bench(), params.job, body as Parameters<typeof addPositionTo>[2]), window),

  changePosition: (context, { params, body, window }) =>
    told(context, changePosition(context.bench(), params, body as Parameters<typeof changePosition>[2]), window),

  removePosition: (context, { params, window }) => told(context, dropPosition(context.bench(), params), window),

  reserve: (context, { params, body, window }) => {
    const { tag, ref } = body
    const given = { job: params.job, tag, ...(ref === undefined ? {} : { ref }) }
    return told(context, reserveFor(context.bench(), given), window)
  },

  release: (context, { params, window }) => told(context, release(context.bench(), params.tag), window),

  jobsOfPart: async ({ bench }, { params }) => ({ places: await jobsOfPart(bench(), params.tag) }),
}

/** Waits for an edit and tells the other windows of it. */
async function told(context: Context, doing: Promise<JobEdited>, window: string | undefined) {
  const { job, edit, parts } = await doing
  if (edit !== undefined) {
    tellJob(context, job.id, window)
    await tellEdited(context, parts, window)
  }
  return { job: job.id, name: job.name, ...(edit === undefined ? {} : { edit }), parts }
}
