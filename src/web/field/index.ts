export { Field, type FieldProps } from './field.tsx'
export { KeptArea, KeptChoice, KeptLine } from './kept.tsx'
