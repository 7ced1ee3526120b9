export { type Backup, backupBook } from './backup.ts'
export type { Book } from './book.ts'
export { type CheckOptions, type CheckReport, checkBook, type Finding } from './check.ts'
export {
  addCheckStandard,
  type BookCheckStandard,
  checkStandards,
  type NewCheckStandard,
  type OftenRead,
  oftenRead,
  removeCheckStandard,
} from './check-standard.ts'
export { type Counts, counts } from './counts.ts'
export { addCurves, type BookCurve, type CurveAbout, curves, type NewCurve } from './curve.ts'
export {
  type DrawerRow,
  type DrawerSince,
  drawerRows,
  drawerSince,
  drawerVersion,
  foreignWrites,
  neighbours,
  partNumbers,
  touchedSince,
} from './drawer.ts'
export { type Edit, editPart, edits, type PartChanges } from './edit.ts'
export { editPartsNoted, type Noted, savePartTypesNoted, saveTesterNoted } from './edit-noted.ts'
export { type BookExport, exportJson, exportReadings } from './export.ts'
export { type Filling, fillRun } from './fill.ts'
export { type FoundJob, type FoundNote, type FoundPart, type FoundText, findText } from './find.ts'
export {
  addFoundRecord,
  type FoundEntry,
  type FoundRecord,
  foundRecords,
  type NewFoundRecord,
  removeFoundRecord,
} from './found-record.ts'
export { contentHash, type Import, type Importing, importReadings, imports } from './import.ts'
export { job, jobs, type PartPlace, placesOfPart } from './job.ts'
export type { JobEdited } from './job-change.ts'
export { addJob, editJob, type JobChanges, releasePart, removeJob, reservePart } from './job-edit.ts'
export { type Change, type ChangeKind, changeKinds, type JournalEntry, journal } from './journal.ts'
export { type Lot, lots } from './lot.ts'
export { type Mark, saveMarkNoted } from './mark.ts'
export { type Figure, type Summary, summaryOf } from './newest.ts'
export { type PartInShort, partsInShort } from './newest-of.ts'
export { closeBook, createBook, type OpenOptions, openBook, openDefaults } from './open.ts'
export {
  type MatchOffers,
  matchOffers,
  newestParameters,
  type ParametersFilter,
  type PartParameters,
  partsChosen,
} from './parameters.ts'
export {
  addPart,
  type NewPart,
  type Part,
  type PartFilter,
  type PartStatus,
  part,
  partStatuses,
  parts,
} from './part.ts'
export { type PartTypeVersion, partTypes, savePartType } from './part-type.ts'
export {
  addPhoto,
  type NewPhoto,
  type Photo,
  type PhotoOf,
  photoContent,
  photos,
  photosOf,
  removePhoto,
} from './photo.ts'
export { addPosition, editPosition, type PositionChanges, type PositionOf, removePosition } from './position-edit.ts'
export {
  addReading,
  addReadings,
  type BookReading,
  correctReading,
  type ReadingFilter,
  reading,
  readings,
} from './reading.ts'
export { type Basis, basisOf, type Recompute, type Recomputed, recomputeTolerance } from './recompute.ts'
export { importJson } from './restore.ts'
export { type BookOutcome, type Outcome, type OutcomeFilter, results, saveResults } from './result.ts'
export {
  finishRun,
  moveRun,
  type Run,
  type RunFilter,
  type RunStart,
  type RunState,
  run,
  runs,
  startRun,
} from './run.ts'
export {
  newestRuns,
  partTypeVersions,
  type RunHead,
  type RunHeadFilter,
  runHead,
  runHeads,
  testerVersions,
} from './run-head.ts'
export { saveSetting, setting } from './setting.ts'
export { type BookSummary, bookSummary, partsOfType, usablePartsByType, usableStatuses } from './summary.ts'
export { type Taken, type Taking, takeReading } from './take-reading.ts'
export { type Saved, saveTester, type TesterVersion, tester, testers } from './tester.ts'
export { type Undone, undoEdit } from './undo.ts'
