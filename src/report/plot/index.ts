export { type BudgetBar, type BudgetBars, budgetBars, shareText } from './budget-bars.ts'
export {
  type IntervalGroup,
  type IntervalPlot,
  type IntervalPlotOptions,
  type IntervalRow,
  intervalPlot,
  intervalPlotDefaults,
  type LimitLine,
} from './interval-plot.ts'
export { type Axis, layScale, niceValues, place, type Scale, type Tick } from './scale.ts'
export {
  type ScatterPlot,
  type ScatterPlotOptions,
  type ScatterPoint,
  type Span,
  scatterPlot,
  scatterPlotDefaults,
} from './scatter-plot.ts'
