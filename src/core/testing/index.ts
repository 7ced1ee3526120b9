export { expectDigits, expectPrinted, expectRelative, printedTolerance, rightDigits } from './expect-printed.ts'
export { formulaLaws, type LawOptions, lawDefaults } from './formula-laws.ts'
