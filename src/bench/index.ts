export {
  type Bench,
  type BenchOptions,
  bookOf,
  clearBench,
  type KnownTester,
  layBench,
  onBench,
  testerFromText,
  testerNamed,
  typeNamed,
} from './bench.ts'
export {
  backupOf,
  bookInfo,
  changePart,
  exportBook,
  keepType,
  makeBook,
  mendReading,
  restoreBook,
} from './book-care.ts'
export {
  bestInterval,
  type ParameterEntry,
  type ParametersDocument,
  type PartEntry,
  parameterEntry,
  parametersDocument,
  partVerdict,
  type VerdictEntry,
  type VerdictsDocument,
  verdictsDocument,
} from './documents.ts'
export {
  checkWholeBook,
  judgeRun,
  type KeepInput,
  type Kept,
  keepReadings,
  keepReadingsOnly,
  keepTester,
  outcomesOf,
  settleRun,
} from './keep.ts'
export { type KeptFilter, type KeptRun, keptResults, type PartStory, partStory, partsOf } from './kept.ts'
export { dropOldDemo, makeDemo } from './make-demo.ts'
export {
  isUnknown,
  type Judged,
  judgeReduced,
  type ReadingsInput,
  type Reduced,
  reduceFile,
  reduceList,
  ruleDefaults,
} from './measure.ts'
export { type PlanInput, planRun } from './plan.ts'
export { type ReportWishes, reportOfJudged, reportOfKept } from './report.ts'
export {
  type Answer,
  answer,
  back,
  currentStep,
  type Now,
  type ReadStep,
  type Session,
  startSession,
} from './session.ts'
export { beginRun, endRun, keepReading, openRuns, runReadings } from './take-run.ts'
