export { type NamedCourse, type StageCourse, stageCoursePlot } from './course-plot.ts'
export { drawnNets } from './layouts.ts'
export { isDrawn, stageDrawing } from './stage-drawing.ts'
