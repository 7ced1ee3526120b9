export { demo } from './demo.ts'
export { type DemoPart, demoParts } from './demo-parts.ts'
export { loadCatalog } from './load-catalog.ts'
export { type SampleTester, sampleTester, sampleTesters } from './testers.ts'
