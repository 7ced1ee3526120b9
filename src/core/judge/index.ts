export {
  acceptance,
  type Conformance,
  capabilityIndex,
  conformance,
  conformanceProbability,
  decide,
  deciding,
  guardBand,
  isInside,
  type Tolerance,
  type TrialOptions,
} from './conformance.ts'
export { type GlobalRisks, globalRisks, type Lot } from './global-risk.ts'
export { canJudge, type JudgeOptions, judge, judgeDefaults } from './judge.ts'
export { judgePart, type PartVerdict } from './judge-part.ts'
export { nearness } from './nearness.ts'
export { partWord } from './part-word.ts'
export type { Method, Rule, Verdict, VerdictWord } from './verdict.ts'
