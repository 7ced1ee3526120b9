export { KeptArea, KeptChoice, KeptLine } from './kept.tsx'
