export { openedCautions } from './cautions.ts'
export {
  type BoardColumn,
  boardColumns,
  columnOf,
  type Decision,
  decisions,
  type Job,
  type JobPosition,
  type JobSaid,
  type JobState,
  jobStates,
  movedTo,
  type NewJob,
  type PartAs,
  type PositionSaid,
  type Power,
  partOfPosition,
  partsOfPosition,
  powers,
  progressOf,
  settled,
} from './job.ts'
export { jobExampleYaml } from './job-example.ts'
export { jobFileSchema, longestSaid } from './job-schema.ts'
export { readCircuitOf, readJob } from './read-job.ts'
