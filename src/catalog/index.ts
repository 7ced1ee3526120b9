export { demo } from './demo.ts'
export { loadCatalog } from './load-catalog.ts'
export { type SampleTester, sampleTester, sampleTesters } from './testers.ts'
