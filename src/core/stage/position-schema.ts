import { z } from 'zod'
import { parseValue, type Unit, unitWords } from '#core/quantity'
import type { Between } from './part-numbers.ts'
import { templates } from './templates.ts'

/** A value as written, with what stood after a plus-minus in the same unit. */
export interface Written {
  readonly value: number
  readonly u?: number
}

interface Words {
  readonly description: string
  readonly example: string
  readonly from?: number
  readonly above?: number
  readonly upTo?: number
}

/** A value with its unit, as people write it: `33 kohm`, `1 kohm +- 5 %`, or a plain number in SI units. */
const written = (unit: Unit, words: Words) =>
  z
    .union([z.string(), z.number()])
    .meta({ description: words.description, examples: [words.example] })
    .transform((input, ctx): Written => {
      const refuse = (message: string): never => {
        ctx.addIssue({ code: 'custom', message, params: { mend: `Write it as ${words.example}.` } })
        return z.NEVER
      }
      const parsed = parseValue(String(input), { unit })
      if (!parsed.ok) return refuse(parsed.problem)
      const { value, u } = parsed
      if (words.above !== undefined && value <= words.above) return refuse(`is not more than ${words.above}`)
      if (words.from !== undefined && value < words.from) return refuse(`is less than ${words.from}`)
      if (words.upTo !== undefined && value > words.upTo) return refuse(`is more than ${words.upTo}`)
      return u === undefined ? { value } : { value, u }
    })

const plain = (unit: Unit, words: Words) => written(unit, words).transform(({ value }) => value)

/** A number between two ends: `80 +- 10` is from 70 to 90; without a plus-minus it is taken as it is. */
const between = (unit: Unit, words: Words) =>
  written(unit, { above: 0, ...words }).transform(({ value, u = 0 }): Between => {
    const half = Math.min(u, 0.95 * value)
    return { low: value - half, usual: value, high: value + half }
  })

const share = (description: string, example: string, upTo = 0.9) => plain('1', { description, example, from: 0, upTo })
const degrees = (description: string, example: string) => plain('degC', { description, example, from: -60, upTo: 150 })

/** A part in numbers, where no published type is meant. */
const numbers = z
  .strictObject({
    name: z
      .string()
      .min(1)
      .default('the part')
      .meta({ description: 'What to call it.', examples: ['unmarked, red dot'] }),
    material: z.enum(['Ge', 'Si']).meta({ description: 'Germanium or silicon.', examples: ['Ge'] }),
    polarity: z.enum(['NPN', 'PNP']).optional(),
    gain: between('1', {
      description: 'Gain h_FE, leakage taken out.',
      example: '80 +- 10',
      from: 1,
      upTo: 1e5,
    }).optional(),
    at: plain('A', {
      description: 'Current of gain and V_BE, or of the forward voltage.',
      example: '1 mA',
      from: 1e-7,
      upTo: 100,
    }).default(1e-3),
    vce: plain('V', { description: 'Collector voltage of the gain.', example: '4.5 V', from: 0.1, upTo: 1000 }).default(
      4.5,
    ),
    leakage: between('A', { description: 'I_CBO at 25 degC; of a diode I_R.', example: '4 uA', from: 1e-15, upTo: 1 }),
    leakageAt: plain('V', { description: 'Voltage of the leakage.', example: '5 V', from: 0.1, upTo: 1000 }).default(5),
    vbe: between('V', { description: `V_BE, ${unitWords.V.what}.`, example: '0.15 V', from: 0.01, upTo: 2 }).optional(),
    forward: between('V', {
      description: 'Forward voltage of a diode.',
      example: '0.3 V',
      from: 0.01,
      upTo: 5,
    }).optional(),
    thermalResistance: plain('K/W', {
      description: 'From junction to air.',
      example: '300 K/W',
      from: 0.01,
      upTo: 1e5,
    }).optional(),
    junctionMax: degrees('Highest junction temperature.', '75 C').optional(),
    voltageMax: plain('V', {
      description: 'Highest collector or reverse voltage.',
      example: '20 V',
      from: 0.1,
      upTo: 1e4,
    }).optional(),
    currentMax: plain('A', { description: 'Highest current.', example: '50 mA', from: 1e-6, upTo: 1e3 }).optional(),
  })
  .refine((n) => (n.gain === undefined) !== (n.forward === undefined), {
    message: 'is neither a transistor nor a diode',
    params: { mend: 'Give gain and vbe for a transistor, or forward for a diode.' },
    path: ['gain'],
  })

/** A file that describes a position. */
export const positionSchema = z.strictObject({
  title: z
    .string()
    .min(1)
    .default('stage')
    .meta({ description: 'What to call it.', examples: ['first audio stage'] }),
  stage: z
    .enum(templates.map((t) => t.id) as [string, ...string[]])
    .meta({ description: 'The template it follows.', examples: ['divider'] }),
  polarity: z.enum(['NPN', 'PNP']).meta({
    description: 'Polarity of the stage; in a PNP stage the supply is below the common line.',
    examples: ['PNP'],
  }),
  supply: written('V', { description: 'Supply voltage, a magnitude.', example: '9 V', from: 0.01, upTo: 1000 }),
  supplyResistance: plain('ohm', {
    description: 'Resistance of the supply.',
    example: '4 ohm',
    from: 0,
    upTo: 1e6,
  }).default(0),
  values: z
    .record(z.string(), written('ohm', { description: 'Resistance.', example: '33 kohm', from: 1e-3, upTo: 1e9 }))
    .meta({ description: 'Resistors by name.', examples: ['{ R1: 33 kohm }'] }),
  beta: z
    .record(
      z.string(),
      plain('K', { description: 'B constant of a thermistor.', example: '3000 K', from: 1, upTo: 1e5 }),
    )
    .default({}),
  tolerance: share('Tolerance of the resistors that do not say their own.', '10 %').optional(),
  place: z
    .string()
    .optional()
    .meta({ description: 'The place that is looked at.', examples: ['Q1'] }),
  parts: z
    .record(z.string(), z.union([z.string().min(1), numbers]))
    .meta({ description: 'What stands in each place: a type, or numbers.', examples: ['{ Q1: OC71 }'] }),
  from: degrees('Coldest air.', '0 C').optional(),
  to: degrees('Hottest air.', '50 C').optional(),
  sag: share('How far the supply falls.', '20 %').optional(),
  ageing: share('How far resistors rise with age.', '10 %', 10).optional(),
  swing: plain('V', { description: 'Room the signal needs to either side.', example: '0.5 V', from: 0 }).optional(),
  drift: share('Change of the current that still counts as steady.', '50 %', 100).optional(),
})

export type PositionFile = z.output<typeof positionSchema>
export type GivenNumbers = z.output<typeof numbers>
