export {
  gainToTemperature,
  isLeakage,
  type LeakageSymbol,
  leakageToTemperature,
  leakageToVoltage,
  leakageVoltage,
  type Specimen,
  voltageToTemperature,
} from './carry.ts'
export { gainAtPoint, leakageAtVoltage, voltageAtCurrent } from './carry-law.ts'
export { type CauseKind, causeKind, shareOf } from './cause-kind.ts'
export { asFoundCode, doubtDefaults } from './doubt.ts'
export { doubtfulNumbers, formulaTable } from './formula-table.ts'
export {
  assumed,
  baseIdealityLoaded,
  diodeIdeality,
  gainCurrentExponent,
  gainVoltageExponent,
  leakageExponent,
} from './law-number.ts'
export { type LeakagePair, leakagePair, type PairWord } from './leakage-pair.ts'
export { kelvinOf } from './operating-point.ts'
export type { Doubt, Parameter, PartResult } from './parameter.ts'
export { sameTemperatureK, sameVoltage } from './point.ts'
export { type Recipe, recipes, type Scope } from './recipe.ts'
export { type ReduceOptions, reduceSeen } from './reduce.ts'
export { gainSymbols } from './reduce-part.ts'
export { allFormulas, reduceFormulas } from './registry.ts'
export { type Against, ambientDefaults, lawMaterial, type SeenReading, type Thermometer } from './seen.ts'
export { reduceReadings, type Understood, understand } from './understand.ts'
