export type {
  Bounds,
  Cell,
  Column,
  Condition,
  Count,
  CurvePicture,
  DoubtLine,
  Fact,
  LeadLine,
  LimitRow,
  NamedPart,
  PartRow,
  PartSection,
  PartTable,
  PlotModel,
  ReadingRow,
  ReportModel,
  Result,
  VerdictLine,
  WorkingModel,
  WorkingStep,
} from './model.ts'
export { dateText, inputFaults, type ReportInput, reportDefaults, type Workings } from './report-input.ts'
export { reportModel } from './report-model.ts'
export { axisKind, bySymbol, parameterName } from './trade.ts'
