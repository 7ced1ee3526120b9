import { z } from 'zod'
import type { Quantity } from '#core/quantity'

/** What the mismatch of a set is. */
export const objectives = {
  'pair-distance': 'the sum of the distances of every two parts in a set',
  'largest-distance': 'the largest distance of two parts in a set',
  'squared-deviations': 'the sum of squared distances from the middle of the set',
  'sum-of-ranges': 'the sum of the ranges of all parameters in a set',
} as const

export type Objective = keyof typeof objectives

const parameter = z.strictObject({
  /** Name of the column or parameter; `ln(h_FE)` and `log10(h_FE)` are its logarithms. */
  name: z.string().min(1),
  /** What counts as a difference of one, in the parameter's own unit. */
  scale: z.number().positive(),
  /** How much it counts beside the others. */
  weight: z.number().positive().default(1),
  /** How far apart the parts of a set may be at most; where places are asked for, how far from what is wanted there. */
  within: z
    .union([
      z.strictObject({ absolute: z.number().nonnegative() }),
      z.strictObject({ percent: z.number().nonnegative() }),
      z.strictObject({ ratio: z.number().min(1) }),
    ])
    .optional(),
  /** Parts outside are left over. */
  min: z.number().optional(),
  max: z.number().optional(),
})

/** What is asked for, as plain data. */
export const matchRequestSchema = z
  .strictObject({
    size: z.int().min(2).max(64).default(2),
    /** How many sets; left out, as many as there can be. */
    sets: z.int().positive().optional(),
    by: z.array(parameter).min(1).max(12),
    objective: z.enum(Object.keys(objectives) as [Objective, ...Objective[]]).default('pair-distance'),
    /** Only parts that agree in these labels (type, lot) go together. */
    same: z.array(z.string()).default([]),
    /** Complementary pairs: the two differ in this label (polarity, say). Only for sets of two. */
    across: z.string().optional(),
    /** Sets whose parts differ on purpose: what is wanted of the part in each place. */
    places: z
      .array(z.strictObject({ name: z.string().min(1), aim: z.record(z.string(), z.number()) }))
      .min(2)
      .optional(),
    /** Tags of parts that stay together: as many as a set has are a set already; fewer are completed. */
    together: z.array(z.array(z.string()).min(2)).default([]),
    exclude: z.array(z.string()).default([]),
    /** Kept for something else: left over, and said so. */
    reserve: z.array(z.string()).default([]),
    seed: z.int().nonnegative().default(1),
  })
  .refine((r) => r.across === undefined || r.size === 2, {
    path: ['across'],
    message: 'is only for sets of two',
    params: { mend: 'Leave it out, or ask for size 2.' },
  })
  .refine((r) => r.places === undefined || r.places.length === r.size, {
    path: ['places'],
    message: 'are not as many as a set has parts',
    params: { mend: 'Give one for each part of a set, or change the size.' },
  })
  .refine((r) => r.together.every((group) => group.length <= r.size), {
    path: ['together'],
    message: 'has more parts than a set',
    params: { mend: 'Name no more parts than the size.' },
  })

export type MatchRequest = z.output<typeof matchRequestSchema>
export type MatchRequestInput = z.input<typeof matchRequestSchema>
export type WantedParameter = MatchRequest['by'][number]

/** A part with the numbers it is matched by. */
export interface MatchPart {
  readonly tag: string
  readonly values: Readonly<Record<string, number>>
  /** The same with their budgets, where they are known: for how sure a set is. */
  readonly quantities?: Readonly<Record<string, Quantity>>
  /** Type, lot and the like. */
  readonly labels?: Readonly<Record<string, string>>
}
