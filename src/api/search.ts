import { z } from 'zod'
import { route } from './route.ts'

export const hitShape = z
  .object({
    kind: z.enum(['part', 'type', 'tester', 'lot', 'run', 'reading', 'job']),
    /** Tag, type number, tester id, lot name, or run number. */
    name: z.string(),
    /** What to show beside the name. */
    say: z.string(),
    /** Part of a reading's note. */
    part: z.string().optional(),
    run: z.number().optional(),
    /** Number of the job. */
    job: z.number().optional(),
  })
  .meta({ id: 'Hit' })
export type Hit = z.infer<typeof hitShape>

export const foundShape = z
  .object({
    query: z.string(),
    hits: z.array(hitShape),
    /** True where there are more than were asked for. */
    more: z.boolean(),
  })
  .meta({ id: 'Found' })
export type Found = z.infer<typeof foundShape>

export const searchRoutes = {
  search: route({
    method: 'get',
    path: '/api/search',
    summary: 'Finds anything: tags, types, lots, places, notes, jobs, testers.',
    query: z.object({ q: z.string().max(200), limit: z.coerce.number().int().min(1).max(200).optional() }),
    answer: foundShape,
  }),
}
