export { incompleteBeta } from './beta.ts'
export { cholesky } from './cholesky.ts'
export { dateOf, dayOf } from './day.ts'
export { Extended } from './extended.ts'
export { findRoot, type RootOptions, rootDefaults } from './find-root.ts'
export { chiSquareCdf, chiSquareQuantile, chiSquareTail, fisherCdf, fisherQuantile } from './fisher.ts'
export {
  type FitModel,
  type FitParameter,
  fitModel,
  type ModelFit,
  type ModelFitOptions,
} from './fit-model.ts'
export type { HeldReason } from './fit-spread.ts'
export { gammaCdf, gammaTail, logBeta, logGamma } from './gamma.ts'
export { type FitOptions, fitPolynomial, type LinearFit, leastSquares } from './least-squares.ts'
export { monotoneCurve } from './monotone.ts'
export { normalCdf, normalDensity, normalQuantile, normalTail } from './normal.ts'
export { Random } from './random.ts'
export type { RobustKind } from './robust.ts'
export {
  autocorrelation,
  median,
  quantile,
  quantileOfSorted,
  type SampleSummary,
  sampleCovariance,
  summarize,
} from './sample.ts'
export { studentCdf, studentQuantile, studentTail } from './student.ts'
