export { Field } from './field.tsx'
export { KeptArea, KeptChoice, KeptLine } from './kept.tsx'
