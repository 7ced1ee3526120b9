export type { Doubt, Parameter, PartResult } from './parameter.ts'
