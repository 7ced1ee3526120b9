import { z } from 'zod'
import { route } from './route.ts'

const idParam = z.object({ id: z.string().min(1).max(200) })
const rowParam = z.object({ row: z.coerce.number().int().min(1) })
const day = z.string().max(10)
const keptShape = z
  .object({
    /** Number of the record. */
    id: z.number(),
    /** Number of the edit, to undo it. */
    edit: z.number(),
  })
  .meta({ id: 'KeptUpkeep' })
export type KeptUpkeep = z.infer<typeof keptShape>
const droppedShape = z.object({ tester: z.string(), edit: z.number() })

const foundPartShape = z.object({
  /** Name of the part: `shunt 10 mA`. */
  part: z.string().min(1).max(200),
  /** SI units, and the standard uncertainty. */
  value: z.number(),
  u: z.number().min(0),
})

const newFoundShape = z.strictObject({
  day,
  note: z.string().max(2000).optional(),
  parts: z.array(foundPartShape).min(1).max(1000),
})
export type NewFound = z.infer<typeof newFoundShape>

const newStandardShape = z.strictObject({
  part: z.string().min(1).max(200),
  symbol: z.string().min(1).max(40),
  low: z.number().optional(),
  high: z.number().optional(),
})
export type NewStandard = z.infer<typeof newStandardShape>

export const upkeepShape = z
  .object({
    /** What was measured of its parts, newest first. */
    found: z.array(
      z.object({
        id: z.number(),
        tester: z.string(),
        day: z.string(),
        note: z.string().optional(),
        parts: z.array(foundPartShape),
        /** When it came into the book. */
        at: z.string(),
      }),
    ),
    /** Its check standards, with what was read of them day by day. */
    standards: z.array(
      z.object({
        id: z.number(),
        tester: z.string(),
        part: z.string(),
        symbol: z.string(),
        low: z.number().optional(),
        high: z.number().optional(),
        unit: z.string(),
        at: z.string(),
        groups: z.array(z.object({ at: z.string(), values: z.array(z.number()) })),
      }),
    ),
    /** Parts that were read on it in three runs or more. */
    often: z.array(z.object({ part: z.string(), runs: z.number() })),
  })
  .meta({ id: 'Upkeep' })
export type Upkeep = z.infer<typeof upkeepShape>

export const pairedShape = z
  .object({
    names: z.tuple([z.string(), z.string()]),
    unit: z.string(),
    parts: z.array(z.object({ part: z.string(), first: z.array(z.number()), second: z.array(z.number()) })),
    notes: z.array(z.string()),
  })
  .meta({ id: 'PairedReadings' })
export type PairedReadings = z.infer<typeof pairedShape>

export const testerHealthShape = z
  .object({
    tester: z.string(),
    word: z.enum(['trusted', 'with corrections', 'as described', 'not trusted']),
    /** The same in a sentence, which begins with the name of the tester. */
    say: z.string(),
  })
  .meta({ id: 'TesterHealth' })
export type TesterHealth = z.infer<typeof testerHealthShape>

export const upkeepRoutes = {
  health: route({
    method: 'get',
    path: '/api/health',
    summary: 'What each tester of the book is worth today.',
    answer: z.object({ testers: z.array(testerHealthShape) }),
  }),
  upkeep: route({
    method: 'get',
    path: '/api/testers/{id}/upkeep',
    summary: 'What the book keeps of the upkeep of a tester: its parts as found, and its check standards.',
    params: idParam,
    answer: upkeepShape,
  }),
  keepFound: route({
    method: 'post',
    path: '/api/testers/{id}/found',
    summary: 'Keeps what was measured of the parts of a tester; a sample comes into the book with it.',
    params: idParam,
    body: newFoundShape,
    answer: keptShape,
  }),
  dropFound: route({
    method: 'delete',
    path: '/api/found/{row}',
    summary: 'Takes away a record of what was found of a tester.',
    params: rowParam,
    answer: droppedShape,
  }),
  keepStandard: route({
    method: 'post',
    path: '/api/testers/{id}/standards',
    summary: 'Names a part as a check standard of a tester.',
    params: idParam,
    body: newStandardShape,
    answer: keptShape,
  }),
  dropStandard: route({
    method: 'delete',
    path: '/api/standards/{row}',
    summary: 'Names a check standard no longer; its readings stay.',
    params: rowParam,
    answer: droppedShape,
  }),
  paired: route({
    method: 'get',
    path: '/api/testers/{id}/paired',
    summary: 'Parts of the book read on a tester and on another, one reading of a symbol for each run.',
    params: idParam,
    query: z.object({ other: z.string().min(1).max(200), symbol: z.string().min(1).max(40) }),
    answer: pairedShape,
  }),
}
