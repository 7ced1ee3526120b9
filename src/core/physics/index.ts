export {
  type BipolarCard,
  type BipolarModel,
  type BipolarOut,
  bipolarAt,
  bipolarCardDefaults,
  bipolarLaw,
  bipolarOut,
} from './bipolar.ts'
export {
  type BipolarDrive,
  type BipolarPoint,
  bipolarPoint,
  type InnerStart,
  type InnerVoltages,
  innerStart,
  settleBipolar,
} from './bipolar-point.ts'
export { type BipolarSlopes, bipolarSlopeOrder, writeBipolarSlopes } from './bipolar-slopes.ts'
export { boltzmann, type Constant, elementaryCharge, zeroCelsius } from './constants.ts'
export {
  type DeviceSetting,
  deviceSettingDefaults,
  lawTemperature,
  nominalTemperature,
  voltsPerKelvin2014,
} from './device-setting.ts'
export {
  type DiodeCard,
  type DiodeModel,
  type DiodeOut,
  diodeAt,
  diodeCardDefaults,
  diodeLaw,
  diodeOut,
} from './diode.ts'
export { type PowerPulse, pulsedRise, type ThermalPole, thermalImpedance, trainPeak } from './foster.ts'
export {
  bandGap,
  type GapLaw,
  gapLaws,
  type IntrinsicLaw,
  intrinsicDensity,
  intrinsicLaws,
  spiceGapLaw,
} from './gap.ts'
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
export { type HeatingOptions, heatingCurve, heatingDefaults, timeToReach, type WarmingPart } from './heating-curve.ts'
export { type JfetCard, type JfetModel, type JfetOut, jfetAt, jfetCardDefaults, jfetLaw, jfetOut } from './jfet.ts'
export {
  type JunctionOut,
  junctionLaw,
  junctionOut,
  type SeriesJunction,
  saturationAtTemperature,
  seriesJunctionByIteration,
  seriesJunctionCurrent,
  seriesJunctionCurrents,
  seriesJunctionVoltage,
} from './junction.ts'
export { junctionPotential } from './junction-potential.ts'
export { lambertOfExp, lambertW } from './lambert-w.ts'
export { limitedStep } from './limited-step.ts'
export {
  type MosfetCard,
  type MosfetModel,
  type MosfetOut,
  mosfetAt,
  mosfetCardDefaults,
  mosfetLaw,
  mosfetOut,
} from './mosfet.ts'
export {
  coolestRest,
  type HeatBalance,
  type HeatFold,
  type PowerAt,
  type SelfHeating,
  type SelfHeatingOptions,
  type SelfHeatingPart,
  selfHeating,
  selfHeatingDefaults,
} from './self-heating.ts'
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
export { diodeCurrent, diodeVoltage, jfetPoint, mosfetPoint } from './terminals.ts'
export { celsius, kelvin, thermalVoltage } from './thermal-voltage.ts'
