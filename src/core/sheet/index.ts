export { cautions } from './cautions.ts'
export { type Ceiling, ceilingOf, type OnTime, onTime } from './ceiling.ts'
export { planSheet } from './plan.ts'
export { rules, usualJunctionC } from './rule.ts'
export { type ForwardWish, type SeriesResistor, seriesResistor } from './series-resistor.ts'
export {
  type Answer,
  answer,
  answers,
  askAgain,
  back,
  currentStep,
  goTo,
  mustAnswer,
  type Now,
  nextTag,
  type ReadStep,
  type Session,
  startSession,
} from './session.ts'
export type { Advice, Caution, Gap, RunSheet, Step, Window, Wishes } from './sheet.ts'
export { type SheetTextOptions, sheetText, sheetTextDefaults, windowText } from './sheet-text.ts'
export { wishDefaults } from './wish.ts'
