import { z } from 'zod'
import { trustWords } from './tester.ts'
import { currentVoltageOrGain, fraction, given, label, valueIn } from './values.ts'

const date = (description: string, example: string) =>
  z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .refine((text) => Number.isFinite(Date.parse(text)))
    .meta({ description, examples: [example] })

/** A current or a voltage in the unit of its range; of a span of the gain dial, a plain number. */
const amount = (description: string, example: string) => currentVoltageOrGain({ description, example })
const doubt = (description: string, example: string) => currentVoltageOrGain({ description, example, from: 0 })
const words = (description: string, example: string) =>
  z
    .string()
    .max(500)
    .meta({ description, examples: [example] })

const line = z.strictObject({
  kind: z.literal('line'),
  at: amount('Reading about which offset and slope are independent.', '5 mA'),
  offset: amount('Correction there: to be added to what is shown.', '-0.03 mA'),
  slope: fraction({ description: 'How the correction grows with the reading.', example: '-0.6 %' }),
  uOffset: doubt('Standard uncertainty of the offset.', '0.01 mA'),
  uSlope: fraction({ description: 'Standard uncertainty of the slope.', example: '0.1 %', from: 0 }),
})

const list = (description: string, example: readonly string[]) =>
  z
    .array(amount(description, example[0]!))
    .min(2)
    .max(100)
    .meta({ description, examples: [[...example]] })

const curve = z.strictObject({
  kind: z.literal('curve'),
  shown: list('Readings, each above the one before.', ['1 mA', '5 mA', '10 mA']),
  correction: list('To be added to each.', ['0.01 mA', '0.05 mA', '0.02 mA']),
  u: list('Standard uncertainty of each correction.', ['0.01 mA', '0.01 mA', '0.02 mA']),
})

const point = z.strictObject({
  shown: amount('What the range showed.', '4.92 mA'),
  reference: amount('What it truly was.', '5 mA'),
  u: doubt('Standard uncertainty of the reference.', '0.005 mA').optional(),
  way: z
    .enum(['up', 'down'])
    .optional()
    .meta({ description: 'From where the needle came.', examples: ['up'] }),
})

const range = z.strictObject({
  range: label('Range it holds for, or span of the gain dial.', '10 mA'),
  trust: z.enum(trustWords).meta({ description: 'What the range is worth.', examples: ['with corrections'] }),
  why: words('Why, as a sentence.', 'It reads up to 1.5 % low, which the correction takes out.'),
  from: amount('Least that was shown.', '1 mA'),
  to: amount('Most that was shown.', '10 mA'),
  law: z
    .discriminatedUnion('kind', [line, curve])
    .meta({ description: 'Correction by a straight line, or by a curve through points.' }),
  uReference: doubt('Standard uncertainty from the reference.', '0.02 mA'),
  uRepeat: doubt('Standard uncertainty of one reading from reading the scale, friction and repeats.', '0.03 mA'),
  dof: z
    .number()
    .min(1)
    .optional()
    .meta({ description: 'Degrees of freedom of the scatter behind law and repeats.', examples: [8] }),
  points: z.array(point).max(1000).optional().meta({ description: 'The readings it was worked out from.' }),
})

type Amount = { readonly value: number; readonly unit: 'A' | 'V' | '1' }

/** A range's calibration in SI units; all of it in one unit. */
function inSi(r: z.output<typeof range>, ctx: z.core.$RefinementCtx) {
  const si = (a: Amount): number => {
    if (a.unit !== r.from.unit)
      ctx.addIssue({
        code: 'custom',
        message: r.from.unit === '1' || a.unit === '1' ? 'mixes units and plain numbers' : 'mixes A and V',
        params: { mend: 'Write all of it in the unit of the range, or for a span of the gain dial without one.' },
      })
    return a.value
  }
  const { law } = r
  return {
    range: r.range,
    ...(r.from.unit === '1' ? { unit: r.from.unit } : {}),
    trust: r.trust,
    why: r.why,
    from: si(r.from),
    to: si(r.to),
    law:
      law.kind === 'line'
        ? { ...law, at: si(law.at), offset: si(law.offset), uOffset: si(law.uOffset) }
        : { kind: law.kind, shown: law.shown.map(si), correction: law.correction.map(si), u: law.u.map(si) },
    uReference: si(r.uReference),
    uRepeat: si(r.uRepeat),
    ...given({
      dof: r.dof,
      points: r.points?.map((p) => ({
        shown: si(p.shown),
        reference: si(p.reference),
        ...given({ u: p.u === undefined ? undefined : si(p.u), way: p.way }),
      })),
    }),
  }
}

/** Calibrations, as `germane tester calibrate --keep` writes them. */
export const calibrations = z
  .array(
    z
      .strictObject({
        date: date('Day it was made.', '2024-05-12'),
        from: date('Day from which it corrects readings; the day it was made where left out.', '2024-05-01').optional(),
        due: date('Day by which it wants to be made again.', '2025-05-12').optional(),
        by: words('Who made it.', 'E. Marsh').optional(),
        reference: words('What it was held against.', 'bench meter, checked 2024-03').optional(),
        note: words('Anything worth knowing.', 'new shunt fitted before').optional(),
        ambient: valueIn('degC', {
          description: 'Ambient temperature.',
          example: '21 degC',
          from: -20,
          upTo: 60,
        }).optional(),
        ranges: z.array(range.transform(inSi)).min(1).max(100).meta({ description: 'What was found, range by range.' }),
      })
      .transform((c) => ({
        date: c.date,
        ...given({ from: c.from, due: c.due, by: c.by, reference: c.reference, note: c.note, ambientC: c.ambient }),
        ranges: c.ranges,
      })),
  )
  .max(1000)
  .meta({ description: 'Calibrations against a reference, written by germane tester calibrate.' })
