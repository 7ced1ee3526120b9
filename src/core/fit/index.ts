export { fitCard, fittedDevice } from './card.ts'
export { type Curve, type CurvePoint, type CurveSymbol, curveSymbols, type FitKind, fitKinds } from './curve.ts'
export type { CurveFit, FitResidual, FittedParameter } from './describe-fit.ts'
export { curveExampleCsv } from './example.ts'
export {
  type FitCurveOptions,
  fitCurve,
  fitCurveDefaults,
  lawOf,
} from './fit-curve.ts'
export { fitHandRun, type HandFitOptions } from './fit-hand-run.ts'
export { curveOfRun, type HandRow, type HandRun, type HandRunDoubts, handRunOf, handRunOfReadings } from './hand-run.ts'
export type { CurveLaw, LawParameter, Target } from './law.ts'
export { type CurvesRead, curvesOf, type ReadCurveOptions, readCurves, symbolsOf } from './read-curve.ts'
