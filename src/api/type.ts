import { z } from 'zod'
import { partTypeShape } from './core-shape.ts'
import { saidFaultShape } from './fault.ts'
import { route } from './route.ts'
import { longestText, savedShape } from './tester.ts'

const textBody = z.strictObject({ text: z.string().max(longestText) })

/** Every part type there is, whole: small enough to search in the page. The user's own come first. */
export const typeListShape = z
  .object({
    types: z.array(partTypeShape),
    /** Names of the user's own, with their version in the book. */
    own: z.array(z.object({ type: z.string(), version: z.number(), at: z.string() })),
  })
  .meta({ id: 'TypeList' })
export type TypeList = z.infer<typeof typeListShape>

export const typeDetailShape = z
  .object({
    partType: partTypeShape,
    from: z.enum(['catalog', 'book']),
    /** How the name was understood, where it is not simply that of the record. */
    note: z.string().optional(),
    /** Source in words; says "from memory" where it applies. */
    source: z.string(),
    leadDoubt: z.string().optional(),
    versions: z.array(z.object({ version: z.number(), at: z.string() })),
    /** The record as text one can edit. */
    text: z.string(),
    /** Parts of this type in the book. */
    parts: z.number(),
    /** What the type number tells by its scheme. */
    explained: z.array(
      z.looseObject({
        name: z.string(),
        sure: z.boolean(),
        says: z.array(z.string()),
        doesNotSay: z.array(z.string()),
        source: z.string(),
      }),
    ),
  })
  .meta({ id: 'TypeDetail' })
export type TypeDetail = z.infer<typeof typeDetailShape>

export const typeCheckShape = z
  .discriminatedUnion('ok', [
    z.object({ ok: z.literal(true), types: z.array(partTypeShape) }),
    z.object({ ok: z.literal(false), faults: z.array(saidFaultShape) }),
  ])
  .meta({ id: 'TypeCheck' })
export type TypeCheck = z.infer<typeof typeCheckShape>

export const typeRoutes = {
  types: route({
    method: 'get',
    path: '/api/types',
    summary: 'All part types, for search in the page. Carries an ETag.',
    answer: typeListShape,
  }),
  checkType: route({
    method: 'post',
    path: '/api/types/check',
    summary: 'Reads part types from YAML or JSON and says all that is wrong; keeps nothing.',
    body: textBody,
    answer: typeCheckShape,
  }),
  saveType: route({
    method: 'post',
    path: '/api/types',
    summary: "Keeps part types of the user's own; they go before those of the catalog.",
    body: textBody,
    answer: z.object({ saved: z.array(savedShape) }),
  }),
  type: route({
    method: 'get',
    path: '/api/types/{type}',
    summary: 'One part type with its source, versions and what its number tells.',
    params: z.object({ type: z.string().min(1).max(200) }),
    answer: typeDetailShape,
  }),
}
