export { contradictionsIn, ratingsRounded } from './contradictions.ts'
export { findType, needType, type TypeMatch, type TypeSearch } from './find-type.ts'
export { withGainRank } from './gain-rank.ts'
export { leadOrderDoubt } from './lead-order.ts'
export { type LetterSymbol, letterSymbol, letterSymbols, type RatingSymbol, ratingUnits } from './letter-symbols.ts'
export { mergeTypes } from './merge-types.ts'
export type { SchemeId, TypeNumberReading } from './number-scheme.ts'
export {
  type ConditionSymbol,
  type Conditions,
  conditionSymbols,
  type Family,
  type GainRank,
  type GainRanks,
  type Leads,
  type Limit,
  type Material,
  mayCondemn,
  type PartType,
  type Polarity,
  type PowerRating,
  type Provenance,
  provenanceText,
  type Ratings,
} from './part-type.ts'
export { partTypesFromData, readPartTypes } from './read-part-types.ts'
export { type Span, searchTypes, type TypeQuery } from './search-types.ts'
export {
  breakdownExponent,
  collectorBaseLimitV,
  collectorLimitV,
  currentLimitA,
  emitterLimitV,
  reverseLimitV,
  type TestBound,
} from './test-limits.ts'
export { partTypeExample } from './type-example.ts'
export { plainTypeName } from './type-name.ts'
export { explainTypeNumber, numberSchemes } from './type-number.ts'
export { partTypeSchema } from './type-schema.ts'
