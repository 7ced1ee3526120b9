export { addToList } from './add-to-list.ts'
export { checkWith } from './check-with.ts'
export { type ColumnsFound, findColumns, type KnownColumn, writeCsv } from './columns.ts'
export {
  type DocumentRead,
  dataDocument,
  documentFault,
  type Path,
  pathText,
  placeOf,
  type Spot,
  type TextDocument,
  valueAt,
  valueText,
} from './document.ts'
export { nearNames } from './near.ts'
export { oncePer } from './once-per.ts'
export { type Column, columnUnit, headerText, type Row, readCsv, type Table, type TableRead } from './read-csv.ts'
export { readYaml } from './read-yaml.ts'
export { longestText, type ReadOptions } from './text-fault.ts'
export { writeYaml } from './write-yaml.ts'
