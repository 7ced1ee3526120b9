import { z } from 'zod'
import { saidFaultShape } from './fault.ts'
import { route } from './route.ts'
import { tagShape } from './run.ts'

const workParam = z.object({ work: z.string().min(1).max(100) })
const title = z.string().max(200).optional()

export const reportWishesShape = z.strictObject({
  tags: z.array(tagShape).min(1).max(100_000).optional(),
  lot: z.string().max(200).optional(),
  title,
  notes: z.array(z.string().max(5000)).max(50).optional(),
  workings: z.enum(['open', 'folded', 'none']).optional(),
})
export type ReportWishes = z.input<typeof reportWishesShape>

/** Work that takes longer than one wants to wait for an answer. */
export const workBodyShape = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('import'),
      /** The readings, CSV or JSON. */
      text: z.string(),
      /** Name of the file, for messages. */
      file: z.string().min(1).max(200),
      tester: z.string().min(1).max(200),
      type: z.string().max(200).optional(),
      lot: z.string().max(200).optional(),
      ambientC: z.number().optional(),
      ambientU: z.number().optional(),
      /** Takes a file that was taken before. */
      again: z.boolean().optional(),
    }),
    z.strictObject({
      kind: z.literal('fill'),
      parts: z.number().int().min(1).max(1_000_000),
      seed: z.number().int(),
    }),
    z.strictObject({ kind: z.literal('report'), ...reportWishesShape.shape }),
  ])
  .meta({ id: 'WorkWanted' })
export type WorkBody = z.input<typeof workBodyShape>

export const workShape = z
  .object({
    id: z.string(),
    kind: z.enum(['import', 'fill', 'report']),
    title: z.string(),
    state: z.enum(['running', 'done', 'failed', 'cancelled']),
    /** How far: `done` of `of`; `of` is 0 while it is not known. */
    done: z.number(),
    of: z.number(),
    /** What it is doing, in words. */
    say: z.string(),
    startedAt: z.string(),
    endedAt: z.string().optional(),
    /** Why it failed. */
    faults: z.array(saidFaultShape).optional(),
    /** What it made. */
    made: z
      .object({
        run: z.number().optional(),
        parts: z.number().optional(),
        /** Where to fetch the page it made. */
        url: z.string().optional(),
        notes: z.array(z.string()).optional(),
      })
      .optional(),
  })
  .meta({ id: 'Work' })
export type Work = z.infer<typeof workShape>

export const workRoutes = {
  works: route({
    method: 'get',
    path: '/api/work',
    summary: 'Long work since the server started, newest first.',
    answer: z.object({ works: z.array(workShape) }),
  }),
  startWork: route({
    method: 'post',
    path: '/api/work',
    summary: 'Starts long work in a thread of its own; events tell how far it is.',
    body: workBodyShape,
    answer: workShape,
  }),
  work: route({
    method: 'get',
    path: '/api/work/{work}',
    summary: 'How far it is.',
    params: workParam,
    answer: workShape,
  }),
  cancelWork: route({
    method: 'delete',
    path: '/api/work/{work}',
    summary: 'Cancels it; an import that is cancelled leaves nothing behind.',
    params: workParam,
    answer: workShape,
  }),
  workPage: route({
    method: 'get',
    path: '/api/work/{work}/page',
    summary: 'The report it made.',
    params: workParam,
    gives: 'text/html',
  }),
  report: route({
    method: 'get',
    path: '/api/report',
    summary: 'A report of parts or of a lot, to read and print. For very many parts use long work.',
    query: z.object({
      /** May be given more than once. */
      part: z.union([z.string(), z.array(z.string())]).optional(),
      lot: z.string().max(200).optional(),
      title,
      workings: z.enum(['open', 'folded', 'none']).optional(),
      /** Anything: lets the browser keep it as a file. */
      save: z.string().max(10).optional(),
    }),
    gives: 'text/html',
  }),
}
