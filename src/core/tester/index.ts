export {
  calibrationAt,
  correctionAt,
  covers,
  distrustOf,
  type InForce,
  isOf,
  isOverdue,
  startOf,
} from './calibration.ts'
export * as causes from './cause.ts'
export { assumedDoubts } from './cause.ts'
export { readingsExampleCsv, readingsExampleJson, testerExample } from './example.ts'
export { findRange, type RangeFound, rangesFor, rangeUnit, unitOf } from './find-range.ts'
export { testerFormulas } from './formulas.ts'
export { gainSeen } from './gain-seen.ts'
export { bestRange, fullScaleAtPart, type NeedlePosition, needle, scaleOf } from './needle.ts'
export {
  atTerminals,
  burdenOf,
  coilOhmAt,
  componentFor,
  drawnOf,
  nullDividerGain,
  nullRatioGain,
  ohmmeterCurrent,
  seriesOhmOf,
  shuntOhmOf,
  terminalOhm,
} from './network.ts'
export { parseShown, readShown, type ShownOptions, type ShownParsed, type ShownRead } from './parse-shown.ts'
export { readTester, type TesterRead, testerSchema } from './read-tester.ts'
export { type Reading, type ReadingState, readingStates, type Shown } from './reading.ts'
export { type KindRead, readingKindOf } from './reading-kind.ts'
export { type ReadingsOptions, type ReadingsRead, readingsCsv, readingsSchema, readReadings } from './readings-file.ts'
export { findReadout, type Readout, readoutName, readoutOf, readoutsOf } from './readout.ts'
export { testerDefaults } from './schema.ts'
export { type Seen, seenAtPart } from './seen-at-part.ts'
export { type SupplyFound, type SupplyLoad, sourceOhm, supplyAtPart, supplyAtTap } from './supply-at-part.ts'
export { type TagProblem, tagProblem } from './tag.ts'
export {
  type AsFound,
  type Calibration,
  type CalibrationPoint,
  type Circuit,
  type CorrectionLaw,
  type DialBridge,
  type Gain,
  type Movement,
  type MovementDiodes,
  type Range,
  type RangeCalibration,
  type ReadingKind,
  readingKinds,
  type Scale,
  type Supply,
  type Tester,
  type TesterLimits,
  type TestOffer,
  type TrustWord,
  trustWords,
} from './tester.ts'
export { writtenCalibration } from './write-calibration.ts'
