export { type BookSummary, bookSummaryShape, type DemoMade, demoMadeShape } from './book.ts'
export { type ApiClient, apiClient, type ReportAddress } from './client.ts'
export type { KeptCurve, NewCurve } from './curve.ts'
export {
  type Drawer,
  type DrawerBlock,
  type DrawerChanges,
  drawerBlockShape,
  drawerChangesShape,
  drawerShape,
  rowsPerBlock,
  type SymbolColumn,
  type WordColumn,
} from './drawer.ts'
export { type ChangeEvent, changeEventShape, windowHeader } from './event.ts'
export { ApiFault, ApiUnreachable, type ClientOptions } from './exchange.ts'
export { type Faults, faultsShape, type SaidFault, saidFaultShape } from './fault.ts'
export type {
  JobChanges,
  JobDetail,
  JobEdited,
  JobInShort,
  JobPositionEntry,
  NewPosition,
  PartOfPosition,
  PlaceOfPart,
  PositionChanges,
} from './job.ts'
export type { MatchChoice, MatchOffers } from './match.ts'
export type { Pairing } from './pairing.ts'
export {
  largestPhoto,
  type PartChanges,
  type PartEdit,
  type PartEntry,
  type PartRun,
  type PartStatusWord,
  type PartStory,
  type PartsChanged,
  type Photo,
  partStatusWords,
  photoTypes,
} from './part.ts'
export type { Route } from './route.ts'
export {
  type AnswerOf,
  type BodyOf,
  type ParamsOf,
  type QueryOf,
  type RouteName,
  type Routes,
  routes,
} from './routes.ts'
export type {
  Correction,
  KeptReading,
  NewReading,
  Outcome,
  Outcomes,
  PlanBody,
  ReadingTaken,
  RunDetail,
  RunEntry,
} from './run.ts'
export type { Found, Hit } from './search.ts'
export type { StageParts } from './stage.ts'
export type { StandInsAnswer, StandInUse } from './standin.ts'
export {
  type Coverage,
  longestText,
  type Saved,
  type TesterCheck,
  type TesterDetail,
  type TesterEntry,
} from './tester.ts'
export type { TypeCheck, TypeDetail, TypeList } from './type.ts'
export type { EditEntry, Undone } from './undo.ts'
export type {
  KeptUpkeep,
  NewFound,
  NewStandard,
  PairedReadings,
  TesterHealth,
  Upkeep,
} from './upkeep.ts'
export type { ReportWishes, Work, WorkBody } from './work.ts'
