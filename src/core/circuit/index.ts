export { type BatchOutcome, solveMany } from './batch.ts'
export {
  type Cell,
  type Circuit,
  type Component,
  type ComponentKind,
  type Device,
  type DeviceComponent,
  deviceKinds,
  isGround,
  leadsOf,
  type ValueComponent,
} from './circuit.ts'
export { circuitFileSchema } from './circuit-schema.ts'
export {
  type Compiled,
  type CompileOptions,
  circuitDefaults,
  compileCircuit,
  setCard,
  setPartTemperature,
  setTemperature,
  setValue,
} from './compile.ts'
export { circuitExampleJson, modelCardExample } from './example.ts'
export { type NamedDevice, readModelCard, writeModelCard } from './model-card.ts'
export { readNetlist } from './netlist.ts'
export { type Output, outputUnit, readOutput } from './output.ts'
export {
  type DeviceLevels,
  type DevicePoint,
  deviceLevelsOf,
  devicePointOf,
  type OperatingPoint,
  operatingPoint,
  pointOf,
  type SmallSignal,
  sweepTemperature,
} from './point.ts'
export { type Assignment, readCircuit } from './read-circuit.ts'
export { readModelCards } from './read-model-cards.ts'
export {
  type HeatedPart,
  type RestTogether,
  type RestTogetherOptions,
  restTogether,
} from './rest-together.ts'
export { powerInCircuit, type SelfHeatedPoint, selfHeatedPoint } from './self-heated.ts'
export { type Sensitivity, sensitivity } from './sensitivity.ts'
export { type Attempt, lastIterations, type Outcome, reset, settle, solve, solveDefaults } from './solve.ts'
export { spiceNumber } from './spice-number.ts'
export { type DoubtfulPoint, throughCircuit } from './through-circuit.ts'
export { writeNetlist } from './write-netlist.ts'
