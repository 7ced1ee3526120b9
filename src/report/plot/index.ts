export { type BudgetBar, type BudgetBars, budgetBars, shareText } from './budget-bars.ts'
export {
  type CourseBand,
  type CourseLine,
  type CoursePlot,
  type CoursePlotOptions,
  type CoursePoint,
  coursePlot,
  coursePlotDefaults,
} from './course-plot.ts'
export { drawing, fitted } from './frame.ts'
export {
  type IntervalGroup,
  type IntervalPlot,
  type IntervalPlotOptions,
  type IntervalRow,
  intervalPlot,
  intervalPlotDefaults,
  type LimitLine,
} from './interval-plot.ts'
export {
  type KeyEntry,
  type Line,
  type LinePlot,
  type LinePlotOptions,
  linePlot,
  linePlotDefaults,
  type Panel,
  type Swath,
} from './line-plot.ts'
export { type PictureLook, pictureFile, pictureFont, pictureLooks } from './picture-file.ts'
export { type Axis, layScale, niceValues, place, type Scale, type Tick } from './scale.ts'
export {
  type ScatterPlot,
  type ScatterPlotOptions,
  type ScatterPoint,
  type Span,
  scatterPlot,
  scatterPlotDefaults,
} from './scatter-plot.ts'
export { circuitCss, courseCss, drawingCss, lineCss } from './style.ts'
