import { planSheet, type RunSheet, type Wishes } from '#core/sheet'
import type { Tester } from '#core/tester'
import { type Bench, typeNamed } from './bench.ts'
import { isUnknown } from './measure.ts'

export interface PlanInput {
  readonly tester: Tester
  /** A type number, or `unknown`. */
  readonly typeName: string
  readonly wishes: Partial<Wishes>
}

/** A run sheet for a part type, or for an unmarked part. @throws {FaultError} unknown type, wishes that make no sense */
export const planRun = (bench: Bench, input: PlanInput): RunSheet =>
  planSheet(input.tester, isUnknown(input.typeName) ? undefined : typeNamed(bench, input.typeName), input.wishes)
