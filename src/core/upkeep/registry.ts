import type { AnyFormula } from '#core/quantity'
import { cellFormulas } from './cell-formulas.ts'
import { movementFormulas } from './movement-formulas.ts'

/** Every law of the care of testers that works on quantities, to be looked up by workings. */
export const upkeepFormulas: readonly AnyFormula[] = [...movementFormulas, ...cellFormulas]
