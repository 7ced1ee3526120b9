export { type BandedResistor, bandColours, readBands, writeBands } from './bands.ts'
export { combinationText } from './combination-text.ts'
export {
  type Combination,
  type Combinations,
  type CombineOptions,
  combine,
  type Load,
  type Member,
  soldOhm,
} from './combine.ts'
export {
  type ESeries,
  eSeries,
  eSeriesNames,
  nearestPreferred,
  preferredAbove,
  preferredBelow,
  preferredBetween,
  seriesOf,
  usualTolerance,
} from './e-series.ts'
export { isLetterCode, type LetterCode, readLetterCode, toleranceLetters, writeLetterCode } from './letters.ts'
export { resistorPowerW, resistorRating, resistorVoltageV } from './power-rating.ts'
