import { z } from 'zod'
import { gapShape, testerShape } from './core-shape.ts'
import { saidFaultShape } from './fault.ts'
import { route } from './route.ts'

const idParam = z.object({ id: z.string().min(1).max(200) })
export const longestText = 1_000_000
const textBody = z.strictObject({ text: z.string().max(longestText) })

export const testerEntryShape = z
  .object({
    id: z.string(),
    name: z.string(),
    kind: z.enum(['needle', 'digital', 'display']),
    from: z.enum(['sample', 'book']),
    /** Version in the book. */
    version: z.number().optional(),
    note: z.string().optional(),
    tester: testerShape,
  })
  .meta({ id: 'TesterEntry' })
export type TesterEntry = z.infer<typeof testerEntryShape>

export const testerDetailShape = z
  .object({
    tester: testerShape,
    from: z.enum(['sample', 'book']),
    version: z.number().optional(),
    /** When this version was saved. */
    at: z.string().optional(),
    /** The description as written; one that was never written down is given as JSON. */
    description: z.string(),
    /** All versions in the book, newest first. */
    versions: z.array(z.object({ version: z.number(), at: z.string(), runs: z.number() })),
  })
  .meta({ id: 'TesterDetail' })
export type TesterDetail = z.infer<typeof testerDetailShape>

/** What came of reading a text: what it describes, or all that is wrong with it. */
export const testerCheckShape = z
  .discriminatedUnion('ok', [
    z.object({ ok: z.literal(true), tester: testerShape }),
    z.object({ ok: z.literal(false), faults: z.array(saidFaultShape) }),
  ])
  .meta({ id: 'TesterCheck' })
export type TesterCheck = z.infer<typeof testerCheckShape>

export const savedShape = z
  .object({
    name: z.string(),
    version: z.number(),
    /** False where nothing had changed, so that no version was made. */
    isNew: z.boolean(),
    /** Number of the edit, to undo it. */
    edit: z.number().optional(),
  })
  .meta({ id: 'Saved' })
export type Saved = z.infer<typeof savedShape>

export const coverageShape = z
  .object({
    tester: z.string(),
    type: z.string(),
    /** What can be read, in the order of the run sheet. */
    can: z.array(
      z.object({
        symbol: z.string(),
        range: z.string().optional(),
        supplyV: z.number().optional(),
        conditions: z.record(z.string(), z.number()),
      }),
    ),
    gaps: z.array(gapShape),
    assumed: z.array(z.string()),
  })
  .meta({ id: 'Coverage' })
export type Coverage = z.infer<typeof coverageShape>

export const testerRoutes = {
  testers: route({
    method: 'get',
    path: '/api/testers',
    summary: 'Samples and the testers of the book.',
    answer: z.object({ testers: z.array(testerEntryShape) }),
  }),
  checkTester: route({
    method: 'post',
    path: '/api/testers/check',
    summary: 'Reads a description and says all that is wrong with it; keeps nothing.',
    body: textBody,
    answer: testerCheckShape,
  }),
  saveTester: route({
    method: 'post',
    path: '/api/testers',
    summary: 'Keeps a description; a change makes a new version.',
    body: textBody,
    answer: savedShape,
  }),
  tester: route({
    method: 'get',
    path: '/api/testers/{id}',
    summary: 'One tester with its description and versions.',
    params: idParam,
    query: z.object({ version: z.coerce.number().int().min(1).optional() }),
    answer: testerDetailShape,
  }),
  coverage: route({
    method: 'get',
    path: '/api/testers/{id}/coverage',
    summary: 'What a tester can and cannot measure of a part type.',
    params: idParam,
    query: z.object({ type: z.string().min(1).max(200) }),
    answer: coverageShape,
  }),
}
