export { findRange, type RangeFound, rangesFor, unitOf } from './find-range.ts'
export { bestRange, fullScaleAtPart, type NeedlePosition, needle, scaleOf } from './needle.ts'
export { burdenOf, drawnOf } from './network.ts'
export { type Reading, type ReadingState, readingStates, type Shown } from './reading.ts'
export { testerDefaults } from './schema.ts'
export {
  type AsFound,
  type Circuit,
  type Gain,
  type Movement,
  type Range,
  type ReadingKind,
  readingKinds,
  type Scale,
  type Supply,
  type Tester,
  type TesterLimits,
  type TestOffer,
} from './tester.ts'
