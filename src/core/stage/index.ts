export {
  doesWork,
  type StageAnswer,
  type StageVerdict,
  type StageWishes,
  type StageWord,
  stageAnswer,
  stageVerdict,
  tableOf,
} from './answer.ts'
export type { LeakageEffect } from './cases.ts'
export { type CoursePoint, courseOf } from './course.ts'
export { type Levels, levelsAt, levelsOf } from './levels.ts'
export type { Spare } from './limits.ts'
export { measuredNumbers, stageSymbols } from './measured-numbers.ts'
export { type LimitOver, type Over, overTemperature } from './over-temperature.ts'
export {
  type Between,
  type DiodeNumbers,
  exactly,
  type PartNumbers,
  type StageRatings,
  type TransistorNumbers,
  usualNumbers,
} from './part-numbers.ts'
export { type Demands, demandDefaults, isFilled, type Parts, type Position } from './position.ts'
export type { PositionRead, WantedPart } from './position-pieces.ts'
export { positionFileSchema } from './position-schema.ts'
export { betterRanked, type RankedPart, type Ranking, rankParts } from './rank-parts.ts'
export { type ReBias, type ReBiasOptions, type ResistorChange, reBias, reBiasDefaults } from './re-bias.ts'
export { readPosition } from './read-position.ts'
export { placeCurrents, type Rest, restOf } from './rest.ts'
export { runawayText, type Spread, type SpreadAt, spreadDefaults, stageSpread } from './spread.ts'
export {
  gainFactor,
  leakageFactor,
  type StabilityFactor,
  stability,
  type TextbookStage,
  voltageFactor,
} from './stability.ts'
export { couplingOf, polarityAt, signOf, stageCircuit, thermistorOhm } from './stage-circuit.ts'
export { netlistExampleYaml, stageExampleYaml } from './stage-example.ts'
export { type GlanceAt, referenceCurrent, type StageGlance, stageGlance } from './stage-glance.ts'
export { makeStage, type Stage, type StageOutcome, type StagePoint, stageAt } from './stage-point.ts'
export type { End, Room, State, Template, TemplatePlace, TemplateResistor } from './template.ts'
export { templateNamed, templates } from './templates.ts'
export { deviceOf, diodeDevice, transistorDevice, usualValues } from './transistor-device.ts'
export { isTurned, polarityAdvice, standingAs, turned } from './turn-polarity.ts'
export { stageRatings, typeNumbers, usualCurrentA } from './type-numbers.ts'
export { wantedParts } from './wanted-parts.ts'
