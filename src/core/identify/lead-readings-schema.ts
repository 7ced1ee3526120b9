import { z } from 'zod'

const leadNumber = z.number().int().min(1).max(3).meta({ description: 'number of a lead, 1 to 3' })
const row = z.array(z.union([z.number(), z.string()])).min(3)

/** A file of lead-pair readings in JSON: parts, each with tables of readings at a temperature. */
export const leadReadingsSchema = z.looseObject({
  cases: z
    .array(
      z.looseObject({
        id: z.string().min(1).meta({ description: 'tag of the part' }),
        leads: z.union([z.literal(2), z.literal(3)]).optional(),
        readings: z.array(
          z.looseObject({
            temperature_degC: z.number().min(-60).max(150).optional(),
            columns: z.array(z.string()),
            rows: z.array(row),
          }),
        ),
      }),
    )
    .min(1)
    .meta({ description: 'the parts, each with its id and its readings' }),
})

/** One row, by its columns. */
export const leadRowSchema = z.looseObject({
  plus_lead: leadNumber,
  minus_lead: leadNumber,
  v: z.number().min(0).max(20),
  i: z.number().min(0).max(1),
  state: z.enum(['constant current', 'compliance']),
  joined: z.enum(['plus', 'minus']).optional(),
})
