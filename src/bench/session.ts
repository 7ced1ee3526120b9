export {
  type Answer,
  answer,
  askAgain,
  back,
  currentStep,
  type Now,
  type ReadStep,
  type Session,
  startSession,
} from '#core/sheet'
