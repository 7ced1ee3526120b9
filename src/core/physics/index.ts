export { boltzmann, type Constant, elementaryCharge, zeroCelsius } from './constants.ts'
export {
  coolingRise,
  deratedPower,
  heatDefaults,
  junctionTemperature,
  type LeakageHeat,
  leakageLoopGain,
  type RatedPower,
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
export { celsius, kelvin, thermalVoltage } from './thermal-voltage.ts'
