export { boltzmann, type Constant, elementaryCharge, zeroCelsius } from './constants.ts'
export {
  coolingRise,
  deratedPower,
  heatDefaults,
  junctionTemperature,
  type LeakageHeat,
  leakageLoopGain,
  type RatedPower,
  ratedResistance,
  thermalResistance,
  transientRise,
} from './heat.ts'
export {
  type HeatPath,
  type HeatRatings,
  heatPath,
  junctionAfter,
  type OutlineHeat,
  outlineHeat,
  pathResistance,
  safeTime,
} from './heat-path.ts'
export {
  baseVoltageSlope,
  baseVoltageTheory,
  type DoubtfulNumber,
  forwardVoltageSlope,
  gainAtTemperature,
  gainPowerLaw,
  gainSlope,
  type LawMaterial,
  leakageAtTemperature,
  leakageDoublings,
  leakageSlope,
  openBaseDoublings,
  reverseDoublings,
  saturationRatio,
  temperatureFormulas,
  voltageAtTemperature,
} from './temperature-laws.ts'
export { celsius, kelvin, thermalVoltage } from './thermal-voltage.ts'
