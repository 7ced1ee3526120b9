import { normalQuantile, type Random } from '#core/numeric'

/** Values of one imagined part, drawn from a seeded stream. */
export interface Draw {
  /** About a median; two parts in three lie within the factor up or down. */
  readonly about: (median: number, factor: number) => number
  readonly between: (low: number, high: number) => number
  readonly chance: (probability: number) => boolean
}

export const drawFrom = (random: Random): Draw => ({
  about: (median, factor) => median * factor ** normalQuantile(random.uniform()),
  between: (low, high) => low + (high - low) * random.uniform(),
  chance: (probability) => random.uniform() < probability,
})
