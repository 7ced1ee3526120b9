import type { PartType } from '#core/device'
import type { Known } from './known.ts'

/** How well a type can be had, as the user marks it. */
export const availabilityWords = ['plenty', 'available', 'scarce', 'gone'] as const
export type Availability = (typeof availabilityWords)[number]

/** What was measured of a part, as bounds that hold 95 %. */
export interface MeasuredPart {
  /** h_FE, at this collector current, A. */
  readonly gain?: Known & { readonly atA: number }
  /** I_CBO, or I_R, at 25 degC, A. */
  readonly leakage?: Known
}

/** What might take a place: a published type, or a part of the drawer. */
export interface Candidate {
  /** Type number, or tag. */
  readonly name: string
  readonly type: PartType
  /** A part of the drawer, with what was measured of it. */
  readonly measured?: MeasuredPart
  readonly availability?: Availability
  /** Parts of its type that are in the drawer to be used. */
  readonly inDrawer?: number
}
