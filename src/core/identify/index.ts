export { makeTable } from './likelihood-table.ts'
