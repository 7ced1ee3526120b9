import type { Quantity } from '#core/quantity'
import { coverage } from '#core/uncertainty'
import { type Figure, measuredFigure } from '#report/typeset'

/** A quantity's 95 % interval, and the quantity printed with its half-width. */
export interface Interval {
  readonly low: number
  readonly high: number
  readonly figure: Figure
}

export function intervalOf(q: Quantity): Interval {
  const { low, high, expanded } = coverage(q)
  return { low, high, figure: measuredFigure(q.value, expanded, q.unit) }
}
