export { cellsSheet } from './cells-sheet.ts'
export { certificateSheet, trustOutcome } from './certificate-sheet.ts'
export { comparisonSheet } from './comparison-sheet.ts'
export { dialSheet } from './dial-sheet.ts'
export { gaugeSheet } from './gauge-sheet.ts'
export { healthSheet } from './health-sheet.ts'
export {
  type JobReport,
  jobSheet,
  type ReportedPart,
  type ReportedPhoto,
  type ReportedPosition,
} from './job-sheet.ts'
export { type ProtectionAsked, protectionSheet } from './protection-sheet.ts'
export type { Sheet, SheetPlot, SheetProse, SheetTable } from './sheet.ts'
export { sheetHtml } from './sheet-html.ts'
export { standardHealth, steadinessSentence, steadinessSheet } from './steadiness-sheet.ts'
