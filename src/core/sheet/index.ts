export type { Advice, Caution, Gap, RunSheet, Step, Window, Wishes } from './sheet.ts'
