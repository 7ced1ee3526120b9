export { drawnNets } from './layouts.ts'
export { isDrawn, stageDrawing } from './stage-drawing.ts'
