export {
  type Answer,
  answer,
  back,
  currentStep,
  type Now,
  type ReadStep,
  type Session,
  startSession,
} from '#core/sheet'
