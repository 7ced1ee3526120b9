export type { LeftOver, MatchAnswer, MatchedSet, Proof } from './answer.ts'
export { type Grade, type Graded, type Grading, gradeParts, gradings } from './grades.ts'
export { matchExampleCsv } from './match-example.ts'
export { matchParts, matchPartsProven } from './match-parts.ts'
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
export type { ProgrammeAnswer, ProgrammeSolver } from './set-programme.ts'
export { probabilityMet, sureDefaults } from './sureness.ts'
export {
  badParameterName,
  parameterMeant,
  quantityTaken,
  takeLog,
  type WantedValue,
  wantedValue,
} from './wanted-value.ts'
export { type MatchWant, matchWants } from './wants.ts'
