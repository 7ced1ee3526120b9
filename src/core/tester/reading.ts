import type { ReadingKind } from './tester.ts'

/** What the person saw. */
export type Shown =
  /** Needle position in divisions of a scale. */
  | { readonly kind: 'deflection'; readonly divisions: number }
  /** A number with a unit, as read off the scale or a display; SI. */
  | { readonly kind: 'value'; readonly value: number; readonly unit: 'A' | 'V' | '1' }
  /** A state: the outcome of a short check, or a needle against its stop. */
  | { readonly kind: 'state'; readonly state: ReadingState }

export const readingStates = ['clear', 'short', 'open', 'over', 'no null'] as const
export type ReadingState = (typeof readingStates)[number]

/** A reading as the person saw it. Append-only in a book: a correction is a new reading. */
export interface Reading {
  readonly part: string
  readonly type?: string
  readonly reads: ReadingKind
  readonly shown: Shown
  /** As typed. */
  readonly seen: string
  /** Range id of the tester; may be left out where the tester has only one that fits. */
  readonly range?: string
  readonly scale?: string
  /** Readings of one part with the same point were taken at one operating point. */
  readonly point: number
  /** Voltage of the tap or supply, V. */
  readonly supplyV?: number
  readonly ambientC?: number
  readonly ambientU?: number
  /** ISO date and time. */
  readonly at?: string
  readonly note?: string
}
