import { fisherCdf, summarize } from '#core/numeric'
import type { GaugeStudy } from './gauge-study.ts'

/** One line of an analysis of variance. */
export interface AnovaLine {
  readonly squares: number
  readonly dof: number
  readonly meanSquare: number
  /** Ratio of variances, and probability of so large a one by chance. */
  readonly ratio?: number
  readonly chance?: number
}

/** Two-way analysis of variance, parts crossed with hands, with repeats. */
export interface CrossedAnova {
  readonly part: AnovaLine
  readonly hand: AnovaLine
  readonly interaction: AnovaLine
  readonly repeats: AnovaLine
  readonly total: AnovaLine
  /** The interaction was pooled with the repeats: then ratios stand against both together. */
  readonly isPooled: boolean
  readonly variances: { readonly repeatability: number; readonly reproducibility: number; readonly part: number }
}

const meanOf = (values: readonly number[]): number => summarize(values).mean

/** Sum of squares of means about their common mean, each standing for `weight` readings. */
const squaresOf = (means: readonly number[], mean: number, weight: number): number =>
  weight * means.reduce((sum, m) => sum + (m - mean) ** 2, 0)

const line = (squares: number, dof: number): AnovaLine => ({ squares, dof, meanSquare: squares / dof })

/** A line held against another; nothing is said where there is no spread to hold it against. */
const against = (l: AnovaLine, noise: AnovaLine): AnovaLine => {
  if (!(noise.meanSquare > 0)) return l
  const ratio = l.meanSquare / noise.meanSquare
  return { ...l, ratio, chance: 1 - fisherCdf(ratio, l.dof, noise.dof) }
}

/**
 * @param poolAbove the interaction counts as none where its probability lies above this
 * @see AIAG, Measurement Systems Analysis, 4th ed., III.B and appendix A
 */
export function crossedAnova({ parts, hands, readings }: GaugeStudy, poolAbove: number): CrossedAnova {
  const [p, h, r] = [parts.length, hands.length, readings[0]![0]!.length]
  const all = readings.flat(2)
  const mean = meanOf(all)
  const cellMeans = readings.map((part) => part.map(meanOf))
  const partMeans = readings.map((part) => meanOf(part.flat()))
  const handMeans = hands.map((_, i) => meanOf(readings.flatMap((part) => part[i]!)))
  const partLine = line(squaresOf(partMeans, mean, h * r), p - 1)
  const handLine = line(squaresOf(handMeans, mean, p * r), h - 1)
  const crossing = cellMeans.flatMap((row, i) => row.map((m, j) => m - partMeans[i]! - handMeans[j]! + mean))
  const interactionLine = line(squaresOf(crossing, 0, r), (p - 1) * (h - 1))
  const within = readings.flatMap((part, i) => part.flatMap((cell, j) => cell.map((x) => x - cellMeans[i]![j]!)))
  const repeats = line(squaresOf(within, 0, 1), p * h * (r - 1))
  const interaction = against(interactionLine, repeats)
  const isPooled = interaction.chance !== undefined && interaction.chance > poolAbove
  const pooled = line(interaction.squares + repeats.squares, interaction.dof + repeats.dof)
  // main effects stand against the interaction where there is one
  const noise = isPooled ? pooled : interaction
  const repeatability = isPooled ? pooled.meanSquare : repeats.meanSquare
  const crossed = isPooled ? 0 : Math.max(0, (interaction.meanSquare - repeats.meanSquare) / r)
  return {
    part: against(partLine, noise),
    hand: against(handLine, noise),
    interaction,
    repeats,
    total: line(squaresOf(all, mean, 1), all.length - 1),
    isPooled,
    variances: {
      repeatability,
      reproducibility: Math.max(0, (handLine.meanSquare - noise.meanSquare) / (p * r)) + crossed,
      part: Math.max(0, (partLine.meanSquare - noise.meanSquare) / (h * r)),
    },
  }
}
