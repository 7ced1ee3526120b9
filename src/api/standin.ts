import { z } from 'zod'
import type { StageVerdict } from '#core/stage'
import type { Asked, Availability, StandIn } from '#core/standin'
import { core } from './core-shape.ts'
import { route } from './route.ts'
import { longestText } from './tester.ts'

export const availabilityShape = z.enum(['plenty', 'available', 'scarce', 'gone']) satisfies z.ZodType<Availability>

const number = z.coerce.number()

/** How the part is used, where that is known better than its published limits say; SI units, degC. */
const useKeys = {
  ambientC: number.min(-60).max(200).optional(),
  voltageV: number.positive().optional(),
  currentA: number.positive().optional(),
  powerW: number.positive().optional(),
  frequencyHz: number.positive().optional(),
} as const

export const standInUseShape = z.object(useKeys)
export type StandInUse = z.infer<typeof standInUseShape>

const candidateShape = core<StandIn>(
  {
    name: z.string(),
    type: z.string(),
    isPart: z.boolean(),
    standing: z.enum(['stands in', 'with care', 'not known', 'refused']),
    checks: z.array(
      z.looseObject({
        what: z.string(),
        word: z.enum(['enough', 'care', 'unknown', 'short']),
        says: z.string(),
        ratio: z.number().optional(),
      }),
    ),
    isSameMaterial: z.boolean(),
  },
  'StandIn',
  'A candidate, held to everything that is asked for.',
)

const askedShape = core<Asked>(
  { what: z.string(), symbol: z.string(), unit: z.string(), bound: z.string(), value: z.number(), why: z.string() },
  'Asked',
  'One number a stand-in must have.',
)

const ownShape = core<StageVerdict>(
  { word: z.string(), limit: z.string(), margin: z.number(), why: z.string() },
  'OwnVerdict',
  'Whether a part will work in a stage.',
)

const inShort = z.object({ name: z.string(), type: z.string(), what: z.string(), says: z.string() })

export const standInsShape = z
  .object({
    for: z.string(),
    /** How the part the stage was made for does there. */
    own: ownShape.optional(),
    hottestC: z.number(),
    asked: z.array(askedShape),
    /** Symbols of what is not published, and so not asked for. */
    notAsked: z.array(z.string()),
    /** What stands in, and what does with care; best first. */
    taken: z.array(candidateShape),
    /** Types of which a rating is not published. */
    notKnown: z.array(inShort),
    /** Those of the same kind, the nearest first, with the first thing that refuses them. */
    refused: z.array(inShort),
    nearest: z.object({ name: z.string(), says: z.string() }).optional(),
    /** Parts of the drawer that were not looked at, as there are too many. */
    notLookedAt: z.number().optional(),
    /** How the type itself can be had, as the user marked it. */
    availability: availabilityShape.optional(),
  })
  .meta({ id: 'StandIns' })
export type StandInsAnswer = z.infer<typeof standInsShape>

const typeParam = z.object({ type: z.string().min(1).max(200) })

export const standInRoutes = {
  standIns: route({
    method: 'get',
    path: '/api/types/{type}/stand-ins',
    summary: 'What stands in for a type, among the published types and the parts of the drawer.',
    params: typeParam,
    query: standInUseShape,
    answer: standInsShape,
  }),
  standInsAt: route({
    method: 'post',
    path: '/api/stand-ins',
    summary: 'What stands in for the part of a position; each candidate is played in its stage.',
    body: z.strictObject({
      ...useKeys,
      /** The position, YAML or JSON. */
      position: z.string().max(longestText),
      /** What stood there, where the position does not say so. */
      type: z.string().max(200).optional(),
    }),
    answer: standInsShape,
  }),
  markType: route({
    method: 'post',
    path: '/api/types/{type}/availability',
    summary: 'Marks how well a type can be had; without a word the mark is taken away.',
    params: typeParam,
    body: z.strictObject({ availability: availabilityShape.optional() }),
    answer: z.object({
      type: z.string(),
      availability: availabilityShape.optional(),
      /** Number of the edit, by which it can be undone; left out where the mark was there already. */
      edit: z.number().optional(),
    }),
  }),
}
