export { comparisonPlot } from './comparison-plot.ts'
export { type CurveSweeps, curvePlot } from './curve-plot.ts'
export { fitPlot } from './fit-plot.ts'
export { type PictureLook, pictureFile, pictureFont, pictureLooks } from './picture-file.ts'
