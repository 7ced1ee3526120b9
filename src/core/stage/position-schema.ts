import { z } from 'zod'
import { partSchema } from './part-schema.ts'
import { templates } from './templates.ts'
import { between, degrees, plain, share, written } from './written.ts'

const name = z.string().min(1)
const value = written('ohm', { description: 'Resistance.', example: '33 kohm', from: 1e-3, upTo: 1e9 })
const node = z.union([z.string().min(1), z.number()]).transform((n) => String(n).toLowerCase())

/** One name or a list of them. */
const names = (description: string, example: string) =>
  z
    .union([name.transform((one) => [one]), z.array(name).min(1)])
    .meta({ description, examples: [example] })
    .optional()

const nodePair = z
  .tuple([node, node])
  .meta({ description: 'Two nodes; the voltage is that of the first against the second.', examples: ['[c, e]'] })

/** What both forms have. */
const shared = {
  supplyResistance: plain('ohm', {
    description: 'Resistance of the supply.',
    example: '4 ohm',
    from: 0,
    upTo: 1e6,
  }).default(0),
  beta: z
    .record(
      z.string(),
      plain('K', { description: 'B constant of a thermistor.', example: '3000 K', from: 1, upTo: 1e5 }),
    )
    .default({}),
  tolerance: share('Tolerance of the resistors that do not say their own.', '10 %').optional(),
  place: name.optional().meta({ description: 'The place that is looked at.', examples: ['Q1'] }),
  parts: z
    .record(z.string(), z.union([name, partSchema]))
    .default({})
    .meta({ description: 'What stands in each place: a type, or numbers.', examples: ['{ Q1: OC71 }'] }),
  rebias: names('Resistors that may be changed to restore the operating point.', '[R1, R2]'),
  heatSink: plain('K/W', {
    description: 'Heat sink of the part, from its case to the air.',
    example: '20 K/W',
    from: 0,
    upTo: 1e4,
  }).optional(),
  coupling: z
    .record(z.string(), share('How much of the rise of the part that is looked at warms another.', '50 %', 1))
    .default({}),
  want: z
    .strictObject({
      ic: between('A', { description: 'Collector current that is wanted.', example: '1.2 mA +- 0.3 mA' }).optional(),
      vce: between('V', { description: 'Collector voltage that is wanted.', example: '4 V +- 1 V' }).optional(),
    })
    .default({}),
  from: degrees('Coldest air.', '0 C').optional(),
  to: degrees('Hottest air.', '50 C').optional(),
  sag: share('How far the supply falls.', '20 %').optional(),
  ageing: share('How far resistors rise with age.', '10 %', 10).optional(),
  swing: plain('V', { description: 'Room the signal needs to either side.', example: '0.5 V', from: 0 }).optional(),
  drift: share('Change of the current that still counts as steady.', '50 %', 100).optional(),
}

/** A file that describes a position by a template. */
export const positionSchema = z.strictObject({
  title: name.default('stage').meta({ description: 'What to call it.', examples: ['first audio stage'] }),
  stage: z.enum(templates.map((t) => t.id) as [string, ...string[]]).meta({
    description: 'The template it follows; a stage that is none of them gives its netlist.',
    examples: ['divider'],
  }),
  polarity: z.enum(['NPN', 'PNP']).meta({
    description: 'Polarity of the stage; in a PNP stage the supply is below the common line.',
    examples: ['PNP'],
  }),
  supply: written('V', { description: 'Supply voltage, a magnitude.', example: '9 V', from: 0.01, upTo: 1000 }),
  values: z.record(z.string(), value).meta({ description: 'Resistors by name.', examples: ['{ R1: 33 kohm }'] }),
  ...shared,
})

/** A file that describes a position by a netlist of its own. */
export const netlistSchema = z.strictObject({
  title: name.optional().meta({ description: 'What to call it.', examples: ['first audio stage'] }),
  netlist: z
    .string()
    .min(1)
    .meta({ description: 'The circuit, as SPICE writes it, its title first; after a bar, indented.' }),
  supplies: names('Sources that fall together with a tired supply.', 'VCC'),
  supply: written('V', {
    description: 'Voltage of the first supply, a magnitude, in place of that of the netlist.',
    example: '9 V +- 0.5 V',
    from: 0.01,
    upTo: 1000,
  }).optional(),
  values: z
    .record(z.string(), value)
    .default({})
    .meta({ description: 'Resistors in place of their value in the netlist.', examples: ['{ R1: 33 kohm +- 5 % }'] }),
  loads: names('Resistors the signal is taken from: what is left over them is the room to cut-off.', 'RC'),
  clipping: z
    .array(
      z.strictObject({
        between: nodePair,
        transistor: z
          .boolean()
          .default(false)
          .meta({ description: 'Whether a transistor stands between them, which keeps its saturation voltage.' }),
        says: name.meta({ description: 'What happens where no room is left.', examples: ['the collector bottoms'] }),
      }),
    )
    .optional(),
  drive: z
    .strictObject({
      source: name.meta({ description: 'The source that drives the stage.', examples: ['VIN'] }),
      states: z
        .record(
          z.string(),
          plain('V', { description: 'Voltage of the source in this state.', example: '6 V', from: -1000, upTo: 1000 }),
        )
        .refine((s) => Object.keys(s).length > 0, { message: 'has no state', params: { mend: 'Add on: 6 V.' } }),
    })
    .optional(),
  ends: z
    .array(
      z.strictObject({
        state: name.meta({ description: 'State of the drive.', examples: ['on'] }),
        between: nodePair,
        most: share('Most of the supply that may be left between the nodes.', '10 %', 10),
        says: name.meta({ description: 'What is wrong beyond it.', examples: ['it no longer saturates'] }),
      }),
    )
    .default([]),
  ...shared,
})

export type PositionFile = z.output<typeof positionSchema>
export type NetlistFile = z.output<typeof netlistSchema>

/** JSON Schema of a position's file, of either form, for editors and for checking outside Germane. */
export const positionFileSchema = (): object => ({
  title: 'Position',
  ...z.toJSONSchema(z.union([positionSchema, netlistSchema]), { io: 'input', reused: 'ref' }),
})
