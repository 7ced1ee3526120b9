import { z } from 'zod'
import { route } from './route.ts'
import { workShape } from './work.ts'

/** Name of the header by which a window says which one it is, so that it knows its own changes when they come back. */
export const windowHeader = 'germane-window'

/** Which thing changed. What it is now is fetched by its own route. */
export const changeEventShape = z
  .discriminatedUnion('kind', [
    /** First event of a stream, and again when another program wrote to the book: look at everything anew. */
    z.object({ kind: z.literal('book'), version: z.number() }),
    z.object({
      kind: z.literal('parts'),
      tags: z.array(z.string()),
      version: z.number(),
      window: z.string().optional(),
    }),
    z.object({ kind: z.literal('run'), run: z.number(), window: z.string().optional() }),
    z.object({ kind: z.literal('tester'), id: z.string(), window: z.string().optional() }),
    z.object({ kind: z.literal('job'), job: z.number(), window: z.string().optional() }),
    z.object({ kind: z.literal('types'), window: z.string().optional() }),
    z.object({ kind: z.literal('edits'), window: z.string().optional() }),
    z.object({ kind: z.literal('work'), work: workShape }),
  ])
  .meta({ id: 'ChangeEvent' })
export type ChangeEvent = z.infer<typeof changeEventShape>

export const eventRoutes = {
  events: route({
    method: 'get',
    path: '/api/events',
    summary: 'Server-sent events: each one is a ChangeEvent as JSON.',
    gives: 'text/event-stream',
  }),
}
