import { z } from 'zod'
import { placeShape } from './core-shape.ts'

/** A fault with its sentence. `place` says where in a text it stands, where that is known. */
export const saidFaultShape = z
  .looseObject({ code: z.string(), sentence: z.string(), place: placeShape.optional() })
  .meta({ id: 'Fault', description: 'What is wrong, with the sentence that names field, value and mend.' })
export type SaidFault = z.infer<typeof saidFaultShape>

/** What every refused request is answered with. */
export const faultsShape = z
  .object({ format: z.literal('germane/faults/1'), faults: z.array(saidFaultShape).min(1) })
  .meta({ id: 'Faults' })
export type Faults = z.infer<typeof faultsShape>
