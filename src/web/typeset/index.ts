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
} from './typeset.tsx'
