export { expectDigits, expectPrinted, expectRelative, printedTolerance, rightDigits } from './expect-printed.ts'
export {
  expectFinite,
  expectRightSlopes,
  expectWellFormed,
  formulaLaws,
  type LawOptions,
  lawDefaults,
} from './formula-laws.ts'
