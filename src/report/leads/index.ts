export { type LeadDrawing, leadDrawing } from './lead-drawing.ts'
