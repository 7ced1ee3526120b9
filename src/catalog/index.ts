export { loadCatalog } from './load-catalog.ts'
