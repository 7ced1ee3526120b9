import { z } from 'zod'
import { decisions, jobStates, powers } from './job.ts'

/** Longest texts, in characters; what a person writes is far below. */
export const longestSaid = { ref: 40, name: 200, line: 2000, note: 20_000, circuit: 100_000 } as const
/** Most positions of one job. */
const mostPositions = 500

const day = /^\d{4}-\d{2}-\d{2}$/

const line = (description: string, example: string, most: number = longestSaid.line) =>
  z
    .string()
    .trim()
    .min(1)
    .max(most)
    .meta({ description, examples: [example] })

const date = (description: string) =>
  z
    .string()
    .meta({ description, examples: ['2026-03-14'] })
    .refine((text) => day.test(text) && !Number.isNaN(Date.parse(text)), {
      message: 'is not a date',
      params: { mend: 'Write it as 2026-03-14.' },
    })

const tag = line('Tag of a part in the book.', 'OP-7', longestSaid.name)
const tags = z
  .union([tag.transform((one) => [one]), z.array(tag)])
  .meta({ description: 'Tags of parts put aside.', examples: ['OP-7'] })

const position = z.strictObject({
  type: line('Part type wanted there.', 'OC71', longestSaid.name).optional(),
  role: line('What it does there.', 'first audio stage').optional(),
  circuit: z
    .union([z.string().max(longestSaid.circuit), z.record(z.string(), z.unknown())])
    .optional()
    .meta({ description: 'Its stage, as germane stage takes it.', examples: ['{ stage: divider, ... }'] }),
  found: line('What stood there, in words.', 'no marking, one lead broken').optional(),
  foundPart: tag.optional(),
  decision: z.enum(decisions).default('undecided'),
  fitted: line('What was put in, in words.', 'from the scrap board').optional(),
  fittedPart: tag.optional(),
  reserved: tags.default([]),
  done: z.boolean().default(false),
  note: line('Anything to remember.', 'runs warm', longestSaid.note).optional(),
})

/** A file that describes a job. */
export const jobSchema = z.strictObject({
  job: line('Its name.', 'Hut intercom', longestSaid.name),
  equipment: line('What it is.', 'intercom of two stations, 9 V').optional(),
  power: z.enum(powers).optional(),
  state: z.enum(jobStates).default('open'),
  begun: date('When it was begun.').optional(),
  finished: date('When it was finished.').optional(),
  note: line('Anything to remember.', 'crackles when warm', longestSaid.note).optional(),
  reserved: tags.default([]),
  positions: z
    .record(z.string().trim().min(1).max(longestSaid.ref), position)
    .default({})
    .meta({ description: 'Its positions by name.', examples: ['{ TR1: { type: OC71 } }'] })
    .refine((all) => Object.keys(all).length <= mostPositions, {
      message: `are more than ${mostPositions}`,
      params: { mend: 'Make several jobs of it.' },
    }),
})

/** JSON Schema of a job file, for editors and for checking outside Germane. */
export const jobFileSchema = (): object => ({
  title: 'Job',
  ...z.toJSONSchema(jobSchema, { io: 'input', reused: 'ref' }),
})

export type JobFile = z.output<typeof jobSchema>
