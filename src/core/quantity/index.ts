export { derive, numericSlopes, slopes, sumBudget } from './derive.ts'
export { type AnyFormula, type Formula, formula, type InputsOf } from './formula.ts'
export { type CauseOptions, exact, leaf, limitTerm, term } from './leaf.ts'
export { type Parsed, type ParseOptions, parseValue } from './parse.ts'
export { printPercent } from './percent.ts'
export {
  type PrintOptions,
  printDefaults,
  printMeasured,
  printPlain,
  printQuantity,
  printRounded,
  printValue,
  unitText,
} from './print.ts'
export type { Correlation, Distribution, Origin, Quantity, Source, Term } from './quantity.ts'
export { unitWords } from './spelling.ts'
export { contribution, correlation, covariance, standardUncertainty } from './spread.ts'
export { isUnit, type Unit, units } from './unit.ts'
