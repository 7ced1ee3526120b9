export {
  type AgreementDocument,
  agreementDocument,
  type ComparedTesters,
  type CompareWishes,
  compareTestersFile,
  compareTestersKept,
  type KeptPair,
  pairedOfBook,
} from './agreement.ts'
export {
  type Bench,
  type BenchOptions,
  bookOf,
  clearBench,
  type KnownTester,
  layBench,
  onBench,
  refreshed,
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
export { bookPage, type Change, type DrawerRow, drawerOf, editList, type Undone, undo } from './book-page.ts'
export {
  type CalibrateInput,
  type CalibrationDone,
  calibrateFile,
  calibrationDocument,
  keepCalibration,
  keptCalibration,
  withCalibration,
} from './calibrate.ts'
export {
  type CircuitDocument,
  type CircuitInput,
  type CircuitSweepDocument,
  type ComputedCircuit,
  type ComputedPoint,
  circuitDocument,
  circuitFromText,
  circuitSweepDocument,
  computeCircuit,
  type Heat,
} from './circuit.ts'
export {
  type CurveInput,
  compareCurves,
  curveComparisonDocument,
  curvesCsv,
  curvesDocument,
  type Drawn,
  drawCurves,
  resampleCurves,
  type SeenCurves,
  seeCurves,
  seenCurves,
} from './curve.ts'
export {
  type ParameterEntry,
  type ParametersDocument,
  type PartEntry,
  parameterEntry,
  parametersDocument,
  partVerdict,
  type VerdictEntry,
  type VerdictsDocument,
  verdictsByPart,
  verdictsDocument,
} from './documents.ts'
export { drawingBytes, drawingKind } from './drawing.ts'
export { evidenceAgainst } from './evidence.ts'
export { type FillWishes, fillBook } from './fill.ts'
export { type CurveFile, curvesOfFiles, type FitOutcome, type FitWishes, type HandWishes } from './fit.ts'
export { fitDocument } from './fit-document.ts'
export { type DrawerFile, type FittedDrawer, fitDrawer } from './fit-drawer.ts'
export { drawFit } from './fit-drawing.ts'
export { type GaugeDocument, type Gauged, gaugeDocument, gaugeFile } from './gauge.ts'
export { type Examined, examine, healthDocument } from './health.ts'
export { heldTypes } from './held-types.ts'
export { type JobReported, jobReport } from './job-report.ts'
export {
  addJobText,
  addPositionTo,
  changeJob,
  changePosition,
  dropJob,
  dropPosition,
  type JobEdited,
  jobList,
  jobNamed,
  jobsOfPart,
  keepJob,
  type PartPlace,
  release,
  reserveFor,
  unknownTypes,
} from './jobs.ts'
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
export {
  type Coverage,
  coverageOf,
  keepTesterText,
  keepTypesText,
  ownTypes,
  readTesterText,
  readTypesText,
  type TesterStory,
  type TextRead,
  type TypeStory,
  testerStory,
  typeStory,
} from './known.ts'
export { type Demo, makeDemo } from './make-demo.ts'
export {
  gradedBy,
  type MatchChoice,
  type MatchDocument,
  matchDocument,
  type Needed,
  offersOf,
  partsOfBook,
  partsOfTable,
} from './match.ts'
export { type Matching, matchWatched } from './match-thread.ts'
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
export {
  type BookCurve,
  chosenCurves,
  curvesOfPart,
  keepCurve,
  keptCurveCsv,
  type PartCurveInput,
  partCurvesDocument,
} from './part-curves.ts'
export {
  changeParts,
  dropPhoto,
  keepPhoto,
  type PartPage,
  type PartRun,
  partPage,
  photosOf,
  pictureOf,
} from './part-page.ts'
export { patiently, waitOutside } from './patience.ts'
export { largestPicture, pictureType } from './picture.ts'
export { type PlanInput, planRun } from './plan.ts'
export { programmeSolver } from './programme-solver.ts'
export { Cancelled, type Progress, unwatched } from './progress.ts'
export { isDemo, putDemo } from './put-demo.ts'
export {
  type Moved,
  type RecomputedRun,
  type RecomputeReport,
  type RecomputeWishes,
  recomputeRuns,
} from './recompute.ts'
export {
  type PlayedLot,
  type RehearsalDocument,
  type RehearseInput,
  rehearsalDocument,
  rehearseLot,
  type TruthHeld,
} from './rehearse.ts'
export { type ReportWishes, reportOfJudged, reportOfKept } from './report.ts'
export { type Found, type Hit, hitsAtMost, searchBook } from './search-book.ts'
export {
  type JobSeen,
  jobDocument,
  jobsDocument,
  type PartSeen,
  type PositionSeen,
  positionEntry,
  seeJob,
} from './see-job.ts'
export {
  type Answer,
  answer,
  askAgain,
  back,
  currentStep,
  type Now,
  type ReadStep,
  type Session,
  startSession,
} from './session.ts'
export { type Settled, settleParts } from './settle-parts.ts'
export {
  positionFromText,
  type StageDocument,
  type StageSeen,
  type StageWish,
  seeStage,
  stageDocument,
} from './stage.ts'
export {
  rankStage,
  reBiasDocument,
  reBiasStage,
  type StageReBias,
  stageRankingDocument,
} from './stage-drawer.ts'
export { drawStage } from './stage-drawing.ts'
export { partsForStages, type StageParts, type StagePartsWish } from './stage-parts.ts'
export {
  availabilityMarks,
  markAvailability,
  type StandInsFound,
  type StandInWish,
  standInPlaces,
  standInsAt,
  standInsForType,
} from './standin.ts'
export { type StandInsDocument, standInsDocument } from './standin-document.ts'
export { drawLeads } from './standin-drawing.ts'
export {
  type KeptStandard,
  type Steadied,
  type SteadinessWishes,
  steadinessDocument,
  steadinessOfFile,
  steadinessOfKept,
  steadinessOfNamed,
} from './steadiness.ts'
export { takeFile } from './take-file.ts'
export { beginRun, endRun, keepLeftOut, keepReading, leftOutOf, openRuns, runReadings } from './take-run.ts'
export {
  beginPlannedRun,
  correctTyped,
  endRunAs,
  type RunStory,
  runList,
  runStory,
  settleWhereEnded,
  type TakenTyped,
  type TypedCorrection,
  type TypedReading,
  takeTyped,
} from './typed-reading.ts'
export {
  dropFound,
  dropStandard,
  type KeptUpkeep,
  keepFound,
  keepStandard,
  type StandardRead,
  type UpkeepStory,
  upkeepOf,
} from './upkeep.ts'
export { cellsSheet, dialSheet, protectionSheet, type Sheet, sheetFile } from './upkeep-sheet.ts'
