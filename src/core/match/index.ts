export type { LeftOver, MatchAnswer, MatchedSet, Proof } from './answer.ts'
export { matchExampleCsv } from './match-example.ts'
export { matchParts } from './match-parts.ts'
export { type PairedUp, type Pairing, pairUp } from './pair-up.ts'
export { isWithin } from './place-parts.ts'
export type { Metric, Points } from './point-tree.ts'
export { type PartsRead, readMatchParts } from './read-match-parts.ts'
export {
  type MatchPart,
  type MatchRequest,
  type MatchRequestInput,
  matchRequestSchema,
  type Objective,
  objectives,
  type WantedParameter,
} from './request.ts'
export { probabilityMet, sureDefaults } from './sureness.ts'
