export { cautionsFor, type Exposure } from './cautions.ts'
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
export { type GaugeOptions, type GaugeResult, type GaugeShare, gaugeDefaults, gaugeStudy, gaugeWord } from './gauge.ts'
export type { AnovaLine, CrossedAnova } from './gauge-anova.ts'
export { type GaugeStudy, gaugeExampleCsv, readGaugeStudy } from './gauge-study.ts'
export { differenceText, type Interchange, interchange, type Purpose } from './interchange.ts'
export { type OhmScale, type OhmScaleWish, ohmScale } from './ohm-scale.ts'
export { type RangeBudget, type RangeBudgetOptions, rangeBudget } from './range-budget.ts'
export { type DesignOptions, designRanges, ringSegments, type Segment, type WantedRange } from './range-design.ts'
export { swamped, swampingFor } from './swamping.ts'
export { type Alloy, type AlloyName, alloys, gaugeDiameterM } from './wire.ts'
export { type WireShunt, type WireShuntWish, wireShunt } from './wire-shunt.ts'
