export { Field, type FieldProps } from './field.tsx'
export { FileButton } from './file-button.tsx'
export { KeptArea, KeptChoice, KeptLine } from './kept.tsx'
