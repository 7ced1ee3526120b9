export { type Reading, type ReadingState, readingStates, type Shown } from './reading.ts'
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
