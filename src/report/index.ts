export {
  type CurvePicture,
  type PartSection,
  type ReportInput,
  type ReportModel,
  reportDefaults,
  reportModel,
  type Workings,
} from '#report/model'
export { reportHtml } from '#report/page'
export {
  type Axis,
  type BudgetBars,
  budgetBars,
  type IntervalPlot,
  intervalPlot,
  type ScatterPlot,
  scatterPlot,
} from '#report/plot'
