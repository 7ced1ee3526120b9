import { z } from 'zod'
import { movementDiodes } from './tester.ts'
import { fraction, valueIn } from './values.ts'

/** Parts inside that a description may name: diodes, a fuse, the bridge of a gain dial. */

const ohm = (description: string, example: string) => valueIn('ohm', { description, example, above: 0, upTo: 1e9 })

export const diodes = z
  .enum(movementDiodes)
  .optional()
  .meta({ description: 'Diodes laid across it, one each way.', examples: ['schottky'] })

export const fuse = z
  .strictObject({
    resistance: ohm('Resistance of the fuse, cold.', '0.3 ohm'),
    rated: valueIn('A', { description: 'Current it is rated for.', example: '500 mA', above: 0, upTo: 1000 }),
  })
  .transform((f) => ({ ohm: f.resistance, ratedA: f.rated }))
  .meta({
    description: 'A fuse in the leads to the part.',
    examples: ['{ resistance: 0.3 ohm, rated: 500 mA }'],
  })

export const bridge = z
  .strictObject({
    dial: z
      .enum(['base', 'collector'])
      .meta({ description: 'Where the dial stands; the other resistor stands in the other lead.', examples: ['base'] }),
    fixed: ohm('The resistor that is not the dial, as the scale was drawn for it.', '1 kohm'),
    pot: ohm('The dial, end to end, as the scale was drawn for it.', '100 kohm'),
    tolerance: fraction({ description: 'Limit of error of either.', example: '5 %', from: 0, upTo: 0.5 }),
  })
  .transform((b) => ({ dial: b.dial, fixedOhm: b.fixed, potOhm: b.pot, tolerance: b.tolerance }))
  .meta({
    description: 'The resistors the dial works with, where they are known.',
    examples: ['{ dial: base, fixed: 1 kohm, pot: 100 kohm, tolerance: 5 % }'],
  })
