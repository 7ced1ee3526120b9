export type { TrimAdvice } from './adjust.ts'
export {
  type Calibrated,
  type CalibratedRange,
  type CalibrationHead,
  calibrate,
  calibrateAgain,
  halfWidth,
  type RangeReadings,
  trustRules,
} from './calibrate.ts'
export { calibrationExampleCsv, readCalibration } from './calibrate-table.ts'
export { cautionsFor, type Exposure, testerExposure } from './cautions.ts'
export {
  type CellKind,
  type CellLoad,
  type CellLoadResult,
  type CellsCheck,
  type CellsWish,
  cellKinds,
  cellsDefaults,
  checkCells,
  type Read,
  testLoads,
} from './cells.ts'
export { type ChartConstants, chartConstants, d2Star } from './chart-constants.ts'
export { chartRules, type RuleSet, signalsOf } from './chart-rules.ts'
export {
  type CheckStandard,
  checkStandardExampleCsv,
  readCheckStandards,
  type Steadiness,
  steadiness,
} from './check-standard.ts'
export {
  type CoilMeasured,
  coilByHalf,
  coilBySwap,
  type DeflectionWish,
  fullScaleOf,
  type KnownOhm,
  type SubstitutionWish,
} from './coil-measure.ts'
export {
  type ComparedPart,
  type CompareOptions,
  type Comparison,
  compareDefaults,
  compareTesters,
  type PairedPart,
  type Trend,
} from './compare.ts'
export { compareExampleCsv, type PairedTable, readPairedTable } from './compare-table.ts'
export {
  type ControlChart,
  type ControlOptions,
  type ControlPoint,
  controlChart,
  controlDefaults,
  type Signal,
  type Subgroup,
} from './control-chart.ts'
export { type Correction, correctionOf } from './correction.ts'
export { type Diagnosis, diagnose, missedJump, type Playbook, playbook, type Suspect, wordSpan } from './diagnose.ts'
export { type DialPoints, dialExampleCsv, readDialTable } from './dial-table.ts'
export { dialTransistors } from './dial-transistor.ts'
export {
  type DatedValue,
  type Drift,
  type DriftBounds,
  daysPerYear,
  driftOf,
  type Outside,
  yearsAhead,
} from './drift.ts'
export type { Estimate } from './estimate.ts'
export {
  asFound,
  type Effect,
  type Found,
  type FoundOptions,
  type FoundPart,
  type FoundRange,
  foundDefaults,
  type Resistances,
  type TotalError,
} from './found.ts'
export { foundAgainst } from './found-against.ts'
export { foundOdds } from './found-evidence.ts'
export {
  type FoundState,
  foundState,
  type KeptFound,
  type KeptValue,
  keptValues,
  type RangeAsFound,
  rangesAsFound,
} from './found-kept.ts'
export { type Mend, type MendWish, mendOf } from './found-mend.ts'
export { type FoundValue, foundExampleCsv, foundSheet, readFound, shouldBe } from './found-table.ts'
export { dialAtGain, type GainBridge, gainAtDial } from './gain-bridge.ts'
export {
  type CheckResistors,
  checkGainDial,
  type DialMark,
  dialDefaults,
  type GainDialCheck,
  type GainDialWish,
  type PotLaw,
} from './gain-dial.ts'
export { type GaugeOptions, type GaugeResult, type GaugeShare, gaugeDefaults, gaugeStudy, gaugeWord } from './gauge.ts'
export type { AnovaLine, CrossedAnova } from './gauge-anova.ts'
export { type GaugeStudy, gaugeExampleCsv, readGaugeStudy } from './gauge-study.ts'
export {
  type Health,
  type HealthEvidence,
  type HealthWord,
  healthOf,
  type RangeHealth,
  type StandardHealth,
  yearAfter,
} from './health.ts'
export { differenceText, type Interchange, interchange, type Purpose } from './interchange.ts'
export type { Transistor } from './null-circuit.ts'
export { type OhmScale, type OhmScaleWish, ohmScale } from './ohm-scale.ts'
export {
  type Protection,
  type ProtectionResult,
  type ProtectionWish,
  protection,
  protectionDefaults,
} from './protection.ts'
export type { Drive, Protected } from './protection-circuit.ts'
export { type ProtectionDiode, type ProtectionDiodeId, protectionDiodes } from './protection-diode.ts'
export { type RangeBudget, type RangeBudgetOptions, rangeBudget } from './range-budget.ts'
export { type DesignOptions, designRanges, ringSegments, type Segment, type WantedRange } from './range-design.ts'
export { rangeText } from './range-text.ts'
export { upkeepFormulas } from './registry.ts'
export { diagnoseExample, readSaw, type Sight, type SightWord, sightWords } from './saw.ts'
export { checkScale, classIndices, type ScaleCheck, type ScaleCheckOptions, type ScalePoint } from './scale-check.ts'
export { readScaleTable, type ScaleTable, scaleExampleCsv } from './scale-table.ts'
export { swamped, swampingFor } from './swamping.ts'
export { type TesterCheck, testerChecks } from './tester-checks.ts'
export { type TesterFault, testerFaults } from './tester-faults.ts'
export type { PartKind, TesterPart } from './tester-part.ts'
export { testerParts } from './tester-parts.ts'
export { type DrivenBy, needleAt, soundState, type TesterState } from './tester-state.ts'
export { type Alloy, type AlloyName, alloys, gaugeDiameterM } from './wire.ts'
export { type WireShunt, type WireShuntWish, wireShunt } from './wire-shunt.ts'
