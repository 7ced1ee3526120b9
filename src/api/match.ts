import { z } from 'zod'
import type { MatchPart } from '#core/match'
import { route } from './route.ts'

export const matchOffersShape = z
  .object({
    /** Letter symbols that were measured, with their units. */
    symbols: z.array(z.object({ symbol: z.string(), unit: z.string() })),
    types: z.array(z.string()),
    lots: z.array(z.string()),
  })
  .meta({ id: 'MatchOffers' })
export type MatchOffers = z.infer<typeof matchOffersShape>

const matchPartShape = z
  .looseObject({
    tag: z.string(),
    values: z.record(z.string(), z.number()),
    labels: z.record(z.string(), z.string()),
    quantities: z.record(z.string(), z.unknown()),
  })
  .meta({
    id: 'MatchPart',
    description: 'A part with the values it is matched by, and their budgets.',
  }) as unknown as z.ZodType<MatchPart>

export const matchChoiceShape = z
  .object({
    parts: z.array(matchPartShape),
    /** What is not among them, in sentences. */
    notes: z.array(z.string()),
    /** How many parts fit, where they are more than were to be given at most: then none is given. */
    tooMany: z.number().optional(),
  })
  .meta({ id: 'MatchChoice' })
export type MatchChoice = z.infer<typeof matchChoiceShape>

/** Names in a list, as an address carries them. */
const names = z.string().max(1000)

export const matchRoutes = {
  matchOffers: route({
    method: 'get',
    path: '/api/match/offers',
    summary: 'What the parts of the book can be chosen and matched by.',
    answer: matchOffersShape,
  }),
  matchParts: route({
    method: 'get',
    path: '/api/match/parts',
    summary: 'Parts with the values they are to be matched by; sets are found in the page itself.',
    query: z.object({
      /** Parameters, with commas between: `h_FE,V_BE@2mA`. */
      by: names,
      /** Labels, with commas between: `type,polarity`. */
      labels: names.optional(),
      lot: z.string().max(200).optional(),
      type: z.string().max(200).optional(),
      /** Give parts only where they are no more than this. */
      most: z.coerce.number().int().min(1).optional(),
    }),
    answer: matchChoiceShape,
  }),
}
