import { z } from 'zod'
import { unitWords } from '#core/quantity'
import { between, degrees, plain } from './written.ts'

/** A part in numbers, where no published type is meant. */
export const partSchema = z
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
    caseResistance: plain('K/W', {
      description: 'From junction to case.',
      example: '20 K/W',
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

export type GivenNumbers = z.output<typeof partSchema>
