export { comparisonPlot } from './comparison-plot.ts'
export { type CurveSweeps, curvePlot } from './curve-plot.ts'
export { fitPlot } from './fit-plot.ts'
