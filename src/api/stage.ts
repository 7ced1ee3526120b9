import { z } from 'zod'
import type { PartNumbers } from '#core/stage'
import { core } from './core-shape.ts'
import { route } from './route.ts'

const partNumbersShape = core<PartNumbers>(
  {
    kind: z.enum(['bipolar', 'diode']),
    name: z.string(),
    material: z.enum(['Ge', 'Si']),
    ratings: z.record(z.string(), z.number()),
    notes: z.array(z.string()),
  },
  'PartNumbers',
  'A part in the few numbers a stage needs, at 25 degC.',
)

export const stagePartsShape = z
  .object({
    parts: z.array(partNumbersShape),
    /** Parts that cannot be tried, each with the reason. */
    leftOut: z.array(z.object({ name: z.string(), why: z.string() })),
    /** How many parts fit, with those that were not asked for. */
    of: z.number(),
  })
  .meta({ id: 'StageParts' })
export type StageParts = z.infer<typeof stagePartsShape>

export const stageRoutes = {
  stageParts: route({
    method: 'get',
    path: '/api/stage/parts',
    summary: 'Parts as the numbers a stage needs; what they do in a position is worked out in the page itself.',
    query: z.object({
      lot: z.string().max(200).optional(),
      type: z.string().max(200).optional(),
      tag: z.string().max(200).optional(),
      /** Current at which published gain is taken where none was measured, A. */
      near: z.coerce.number().positive().max(1000).optional(),
      from: z.coerce.number().int().min(0).optional(),
      count: z.coerce.number().int().min(1).max(5000).optional(),
    }),
    answer: stagePartsShape,
  }),
}
