import { temperatureFormulas } from '#core/physics'
import type { AnyFormula } from '#core/quantity'
import { testerFormulas } from '#core/tester'
import { carryFormulas } from './carry-law.ts'
import { gainFormulas } from './gain.ts'
import { junctionFormulas } from './junction.ts'
import { operatingPointFormulas } from './operating-point.ts'
import { smallSignalFormulas } from './small-signal.ts'

/** Every formula this module registers. */
export const reduceFormulas: readonly AnyFormula[] = [
  ...gainFormulas,
  ...smallSignalFormulas,
  ...junctionFormulas,
  ...operatingPointFormulas,
  ...carryFormulas,
]

/** Every registered formula by id, those of the modules below included. */
export const allFormulas: ReadonlyMap<string, AnyFormula> = new Map(
  [...testerFormulas, ...temperatureFormulas, ...reduceFormulas].map((f) => [f.id, f]),
)
