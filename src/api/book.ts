import { z } from 'zod'
import { route } from './route.ts'

export const bookSummaryShape = z
  .object({
    /** Name of the file, without its folder. */
    file: z.string(),
    /** When it was made, ISO. */
    madeAt: z.string().optional(),
    isEmpty: z.boolean(),
    /** True where it holds the demo. */
    isDemo: z.boolean(),
    parts: z.number(),
    runs: z.number(),
    openRuns: z.number(),
    readings: z.number(),
    testers: z.number(),
    ownTypes: z.number(),
    photos: z.number(),
    lots: z.array(z.object({ name: z.string(), parts: z.number() })),
    /** Grows with every change of a part or its newest results; see the drawer. */
    version: z.number(),
    /** Number of the last migration. */
    structure: z.number(),
    /** Version of Germane. */
    germane: z.string(),
  })
  .meta({ id: 'BookSummary' })
export type BookSummary = z.infer<typeof bookSummaryShape>

export const demoMadeShape = z
  .object({ lot: z.string(), run: z.number(), parts: z.array(z.string()) })
  .meta({ id: 'DemoMade' })
export type DemoMade = z.infer<typeof demoMadeShape>

export const bookRoutes = {
  bookSummary: route({
    method: 'get',
    path: '/api/book',
    summary: 'What the book is and how much is in it.',
    answer: bookSummaryShape,
  }),
  makeDemo: route({
    method: 'post',
    path: '/api/demo',
    summary: 'Puts the demo lot into the book; refused where the book is not empty.',
    body: z.strictObject({}),
    answer: demoMadeShape,
  }),
}
