export {
  ConditionList,
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
} from './typeset.tsx'
