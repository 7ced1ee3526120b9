import { z } from 'zod'
import type { PartType } from './part-type.ts'
import { conditionsInput, limitInput, ratingsInput, refusal } from './type-input.ts'

const text = (description: string, ...examples: readonly string[]) =>
  z
    .string()
    .trim()
    .min(1)
    .meta({ description, ...(examples.length === 0 ? {} : { examples }) })

const order = z
  .string()
  .regex(/^(verify|[A-Za-z]+\d?(-[A-Za-z]+\d?)+)$/)
  .meta({ description: 'Electrodes in the order of the leads, or verify where it is not settled', examples: ['E-B-C'] })

const leads = z.strictObject({
  order,
  view: text('From where the order is seen', 'bottom view, clockwise from the tab'),
  caseConnected: text('What the case is connected to', 'C').optional(),
  variants: text('Other orders that are known', 'some makers: C-B-E').optional(),
})

const gainRanks = z.strictObject({
  symbol: z.literal('h_FE'),
  at: conditionsInput,
  ranks: z.array(z.strictObject({ suffix: text('Suffix of the type number', 'B'), min: z.number(), max: z.number() })),
})

const provenance = z.strictObject({
  kind: z.enum(['read', 'memory', 'own']),
  confidence: z.enum(['high', 'medium', 'low']).optional(),
  where: z.array(z.string()),
  recalled: z.string().optional(),
  note: z.string().optional(),
})

const source = z
  .union([z.string(), z.array(z.string())])
  .meta({ description: 'Where the numbers come from: a sheet, a handbook', examples: ['House sheet, 1964, page 3'] })
  .transform((s) => (typeof s === 'string' ? [s] : s))

const written = z.strictObject({
  type: text('Type number', 'GX-17'),
  family: z
    .enum(['bjt', 'diode', 'zener', 'jfet', 'mosfet', 'scr', 'triac', 'ujt'])
    .meta({ description: 'Kind of part', examples: ['bjt'] }),
  polarity: z
    .enum(['NPN', 'PNP', 'N', 'P'])
    .optional()
    .meta({
      description: 'NPN or PNP of a bipolar transistor, channel N or P of a field-effect one',
      examples: ['PNP'],
    }),
  material: z
    .enum(['Si', 'Ge', 'GaAs'])
    .optional()
    .meta({ description: 'Semiconductor', examples: ['Ge'] }),
  construction: text('How it is made', 'alloy junction').optional(),
  outline: text('Case outline', 'TO-1').optional(),
  leads: leads.optional().meta({ description: 'Lead order' }),
  ratings: ratingsInput.default({ power: [] }),
  limits: z.array(limitInput).default([]).meta({ description: 'Published limits' }),
  gainGroups: text('Gain ranks as a sentence').optional(),
  gainRanks: gainRanks.optional().meta({ description: 'Gain ranges that a suffix stands for' }),
  suffixes: text('What suffixes of the number mean').optional(),
  use: text('What it was made for', 'audio driver').optional(),
  trouble: text('Known trouble with this type', 'tin whiskers short the can').optional(),
  source: source.optional(),
  note: text('Anything to know about the numbers').optional(),
  provenance: provenance.optional().meta({ description: 'Full provenance; left out, the record is your own' }),
})

/** A part type as a person writes it, made into the record Germane keeps. */
export const partTypeInput = written
  .superRefine((t, ctx) => {
    if (t.family === 'bjt' && t.polarity !== 'NPN' && t.polarity !== 'PNP')
      ctx.addIssue(
        refusal(
          t.polarity === undefined ? 'is missing' : 'is not a polarity of a bipolar transistor',
          'Write polarity: NPN or polarity: PNP.',
          ['polarity'],
        ),
      )
  })
  .transform(({ source: where, note, provenance: full, ...t }): PartType => {
    const own = { kind: 'own', where: where ?? [], ...(note === undefined ? {} : { note }) } as const
    // Keys that were left out are not there at all, which the optional types of the schema cannot say.
    return { ...t, provenance: full ?? own } as PartType
  })

/** What a file of part types may hold: one type, a list, or a list under `types`. */
export const partTypeFile = z.union([
  partTypeInput,
  z.array(partTypeInput),
  z.strictObject({ types: z.array(partTypeInput) }),
])

/** JSON Schema of a file of part types, for editors and for checking outside Germane. */
export const partTypeSchema = (): object => ({
  title: 'Part types',
  ...z.toJSONSchema(partTypeFile, { io: 'input', reused: 'ref' }),
})
