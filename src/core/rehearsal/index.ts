export { ErrorDraw } from './error-draw.ts'
export { firstPoint } from './first-point.ts'
export {
  type KnownPart,
  type LeftOut,
  type Rehearsal,
  type RehearsalOptions,
  rehearsalDefaults,
  type Truth,
} from './rehearsal.ts'
export { rehearse } from './rehearse.ts'
export { type Lot, specimen } from './specimen.ts'
