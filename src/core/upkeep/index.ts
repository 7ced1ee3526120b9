export {
  type ComparedPart,
  type CompareOptions,
  type Comparison,
  compareDefaults,
  compareTesters,
  type PairedPart,
  type Trend,
} from './compare.ts'
export { compareExampleCsv, type PairedTable, readPairedTable } from './compare-table.ts'
export type { Estimate } from './estimate.ts'
export { differenceText, type Interchange, interchange, type Purpose } from './interchange.ts'
