import { z } from 'zod'
import { type Curve, fitKinds } from '#core/fit'
import { core } from './core-shape.ts'
import { route } from './route.ts'

export const curveShape = core<Curve>(
  {
    name: z.string(),
    kind: z.enum(fitKinds),
    polarity: z.enum(['n', 'p']),
    points: z.array(z.looseObject({ row: z.number() })),
    notes: z.array(z.string()),
  },
  'Curve',
  'What was read of one part: a sweep, or a family of them; signs as if NPN or n-channel, SI units.',
)

export const keptCurveShape = z
  .object({
    id: z.number(),
    curve: curveShape,
    /** Of the part during the sweep, degC. */
    temperatureC: z.number().optional(),
    /** When it was taken, ISO. */
    takenAt: z.string().optional(),
    /** Name of the file it came from. */
    file: z.string(),
    note: z.string().optional(),
    /** When it came into the book. */
    at: z.string(),
  })
  .meta({ id: 'KeptCurve' })
export type KeptCurve = z.infer<typeof keptCurveShape>

/** A file with the curve of a part. */
export const newCurveShape = z
  .strictObject({
    text: z.string().max(1_900_000),
    file: z.string().min(1).max(200),
    /** What the part is; by the names of the columns where left out. */
    kind: z.enum(fitKinds).optional(),
    /** Other headers: header to symbol. */
    columns: z.record(z.string().max(200), z.string().max(20)).optional(),
    temperatureC: z.number().min(-200).max(300).optional(),
    takenAt: z.string().max(40).optional(),
    note: z.string().max(2000).optional(),
    /** Takes a file again that was kept for the part before. */
    again: z.boolean().optional(),
  })
  .meta({ id: 'NewCurve' })
export type NewCurve = z.infer<typeof newCurveShape>

const tagParam = z.object({ tag: z.string().min(1).max(200) })

export const curveRoutes = {
  curves: route({
    method: 'get',
    path: '/api/parts/{tag}/curves',
    summary: 'Curves of a part, oldest first.',
    params: tagParam,
    answer: z.object({ curves: z.array(keptCurveShape) }),
  }),
  keepCurve: route({
    method: 'post',
    path: '/api/parts/{tag}/curves',
    summary: 'Keeps a curve of a part; a part that is not in the book yet is added.',
    params: tagParam,
    body: newCurveShape,
    answer: z.object({ curve: keptCurveShape }),
  }),
}
