export { comparisonSheet } from './comparison-sheet.ts'
export { gaugeSheet } from './gauge-sheet.ts'
export type { Sheet, SheetPlot, SheetProse, SheetTable } from './sheet.ts'
export { sheetHtml } from './sheet-html.ts'
