export { bookText } from './signs.ts'
export {
  ConditionList,
  dayText,
  FigureOf,
  Formula,
  LetterSymbol,
  Measured,
  OutcomeShape,
  OutcomeWord,
  Plain,
  Prose,
  PutIn,
  plainText,
  SpanOf,
  sureText,
  TemperatureChoice,
  whenText,
} from './typeset.tsx'
