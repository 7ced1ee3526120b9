export { explain, type Fault, FaultError, type Place, placeText, wholeText } from './fault.ts'
