import { summarize } from '#core/numeric'
import { chartConstants, d2Star } from './chart-constants.ts'
import type { GaugeStudy } from './gauge-study.ts'

/** Variances by the average and range method, and what its range chart shows. */
export interface RangeStudy {
  readonly variances: { readonly repeatability: number; readonly reproducibility: number; readonly part: number }
  readonly meanRange: number
  readonly handMeans: readonly number[]
  readonly handRanges: readonly number[]
  readonly rangeLimit: number
  readonly wild: readonly { readonly part: string; readonly hand: string; readonly range: number }[]
}

const rangeOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values)
const meanOf = (values: readonly number[]): number => summarize(values).mean

/** @see AIAG, Measurement Systems Analysis, 4th ed., III.B, average and range method */
export function averageAndRange({ parts, hands, readings }: GaugeStudy): RangeStudy {
  const trials = readings[0]![0]!.length
  const ofHand = hands.map((_, h) => readings.map((part) => part[h]!))
  const handMeans = ofHand.map((cells) => meanOf(cells.flat()))
  const handRanges = ofHand.map((cells) => meanOf(cells.map(rangeOf)))
  const meanRange = meanOf(handRanges)
  const { d2, D4 } = chartConstants(trials)
  const repeatability = (meanRange / d2) ** 2
  const between = (rangeOf(handMeans) / d2Star(hands.length, 1)) ** 2
  const partRange = rangeOf(readings.map((part) => meanOf(part.flat())))
  const rangeLimit = D4 * meanRange
  return {
    variances: {
      repeatability,
      reproducibility: Math.max(0, between - repeatability / (parts.length * trials)),
      part: (partRange / d2Star(parts.length, 1)) ** 2,
    },
    meanRange,
    handMeans,
    handRanges,
    rangeLimit,
    wild: parts.flatMap((part, p) =>
      hands.flatMap((hand, h) => {
        const range = rangeOf(readings[p]![h]!)
        return range > rangeLimit ? [{ part, hand, range }] : []
      }),
    ),
  }
}
