export { readLetterCode } from './resistor-letters.ts'
