export { likelyText, type RunnableAs, ruledOutSentences, runnableAs } from './answer.ts'
export { type AlsoKnown, type Candidate, type Candidates, candidateTypes } from './candidates.ts'
export { faultText } from './fault-kind.ts'
export { type IdentifiedAs, type IdentifyOptions, type Identity, identifyDefaults, identifyPart } from './identify.ts'
export { makeTable } from './likelihood-table.ts'
export type { Marking } from './marking.ts'
export { measuredIn } from './measured-in.ts'
export { digitalMeter, type LeadReading, type Meter, meters, needleMeter, type Shown } from './meter.ts'
export { type NextTest, nextTest } from './next-test.ts'
export {
  type LeadReadings,
  type LeadReadingsRead,
  leadReadingsExampleCsv,
  readLeadReadings,
} from './read-lead-readings.ts'
export { pairText, shownText } from './say-reading.ts'
export { parseShows, type ShownRead } from './shown-text.ts'
export { type SimulatedPart, simulatedPart } from './simulated-part.ts'
export { type ExtraTest, extraTests, type Trial } from './trial.ts'
export { type Posterior, type Weighed, weigh } from './weigh.ts'
