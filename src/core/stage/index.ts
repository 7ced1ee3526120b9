export { measuredNumbers, stageSymbols } from './measured-numbers.ts'
export {
  type Between,
  type DiodeNumbers,
  exactly,
  type PartNumbers,
  type StageRatings,
  type TransistorNumbers,
  usualNumbers,
} from './part-numbers.ts'
export { type Demands, demandDefaults, type Parts, type Position } from './position.ts'
export { polarityAt, stageCircuit, thermistorOhm } from './stage-circuit.ts'
export type { End, Room, State, Template, TemplatePlace, TemplateResistor } from './template.ts'
export { templateNamed, templates } from './templates.ts'
export { deviceOf, diodeDevice, transistorDevice, usualValues } from './transistor-device.ts'
export { stageRatings, typeNumbers, usualCurrentA } from './type-numbers.ts'
