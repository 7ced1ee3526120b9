export { explain, type Fault, FaultError, type Place, placeText } from './fault.ts'
