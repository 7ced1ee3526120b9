export { type Compared, type Comparison, compared, type Difference, type NamedSweeps } from './compare.ts'
export { type FittedPoint, type FittedSweep, fittedPointsDefault, fittedSweeps } from './fitted.ts'
export { curveKindOf } from './kind.ts'
export { type Grid, placesOf, resampled, type SmoothSweep, smoothed } from './resample.ts'
export { type ResidualSweep, residualSweeps, scatterBand } from './residuals.ts'
export {
  type Held,
  isCurrent,
  rangeOf,
  type Sweep,
  type SweepPoint,
  type SweepSymbol,
  sweepName,
  unitOfSymbol,
} from './sweep.ts'
export { type Asked, isSwept, sweepsOf } from './sweeps.ts'
export { firstView, isLogarithmic, sweepsFor, sweepsToFit, type View, views, viewsOf, viewWords } from './view.ts'
