export { outsideReach, pageFaults } from './page-check.ts'
export { current, held, sampleLot, samplePart, transistor } from './sample-lot.ts'
export { sampleTester, sampleTypes } from './sample-tester.ts'
