export { type Asked, askedFor } from './asked.ts'
export { type Base, type BaseShape, baseOf } from './base.ts'
export {
  type Availability,
  availabilityWords,
  type Candidate,
  type MeasuredPart,
} from './candidate.ts'
export { type CaseJoin, caseJoin } from './case.ts'
export {
  type CutoffSymbol,
  commonBaseCutoff,
  comparableCutoff,
  excessPhase,
  transitionFrequency,
  type WantedCutoff,
} from './cutoff.ts'
export { gainReach } from './gain.ts'
export type { Check, CheckWord, Known, Wanted } from './known.ts'
export { type LeadPlan, type LeadWork, leadPlan } from './leads.ts'
export { leakageAt } from './leakage.ts'
export {
  type GainNeed,
  hottestDefaultC,
  type Need,
  type StandInFamily,
  standInFamilies,
  typeNeed,
  type Use,
} from './need.ts'
export { type Play, playCheck, playPart } from './play.ts'
export { positionNeed } from './position-need.ts'
export { airPower, allowedPower, casePower } from './power.ts'
export { type PlayIn, type StandIn, type StandIns, type Standing, standIn, standIns } from './stand-ins.ts'
