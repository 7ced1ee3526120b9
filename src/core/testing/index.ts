export { anyPartType } from './any-part-type.ts'
export { anyTester } from './any-tester.ts'
export { expectDigits, expectPrinted, expectRelative, printedTolerance, rightDigits } from './expect-printed.ts'
export {
  expectFinite,
  expectRightSlopes,
  expectWellFormed,
  formulaLaws,
  type LawOptions,
  lawDefaults,
} from './formula-laws.ts'
export { heatFaults, orderFaults, ratingFaults, resetFaults, testerFaults } from './sheet-check.ts'
export { hasSimulator, simulated } from './simulator.ts'
