export { type BandedResistor, bandColours, readBands } from './resistor-bands.ts'
export { readLetterCode } from './resistor-letters.ts'
