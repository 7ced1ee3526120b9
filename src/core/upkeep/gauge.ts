import { FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { type CrossedAnova, crossedAnova } from './gauge-anova.ts'
import { averageAndRange } from './gauge-ranges.ts'
import type { GaugeStudy } from './gauge-study.ts'

export interface GaugeOptions {
  readonly method: 'anova' | 'ranges'
  /** The interaction of parts and hands is pooled with the repeats where its probability lies above this. */
  readonly poolAbove: number
  /** Width from lower to upper limit, in the unit of the readings; left out, only the study itself is the measure. */
  readonly tolerance?: number
}

/** AIAG pools at 0.25, as is common practice. */
export const gaugeDefaults = { method: 'anova', poolAbove: 0.25 } as const satisfies GaugeOptions

/** A standard deviation and how much of the whole it is. */
export interface GaugeShare {
  readonly sd: number
  /** Of the total standard deviation of the study, percent. Shares do not add up to 100; their squares do. */
  readonly ofStudy: number
  /** Share of the variance, percent. */
  readonly ofVariance: number
  /** Six standard deviations as a part of the tolerance, percent. */
  readonly ofTolerance?: number
}

/** Where the spread of a study comes from. */
export interface GaugeResult {
  readonly method: GaugeOptions['method']
  readonly unit: Unit
  readonly counts: { readonly parts: number; readonly hands: number; readonly trials: number }
  /** The tester and the eye: one hand reading one part again. */
  readonly repeatability: GaugeShare
  /** Hands that read differently, with their interaction with parts where it is seen. */
  readonly reproducibility: GaugeShare
  /** Both together: the measurement. */
  readonly gauge: GaugeShare
  readonly part: GaugeShare
  readonly total: GaugeShare
  /** How many classes of parts the measurement can tell apart, before it is cut to a whole number. */
  readonly classes: number
  /** Mean of each hand, in their order. */
  readonly handMeans: readonly number[]
  readonly anova?: CrossedAnova
  /** Cells whose range lies above the limit of the range chart. */
  readonly wild: readonly { readonly part: string; readonly hand: string; readonly range: number }[]
  readonly rangeLimit: number
}

/**
 * Repeatability and reproducibility of a measurement with several hands.
 *
 * @throws {FaultError} `out-of-domain` for fewer than two parts, hands or trials
 * @see AIAG, Measurement Systems Analysis, 4th ed., chapter III, section B
 */
export function gaugeStudy(study: GaugeStudy, options: Partial<GaugeOptions> = {}): GaugeResult {
  const o: GaugeOptions = { ...gaugeDefaults, ...options }
  const counts = countsOf(study)
  const ranges = averageAndRange(study)
  const anova = o.method === 'anova' ? crossedAnova(study, o.poolAbove) : undefined
  const v = anova?.variances ?? ranges.variances
  const totalVariance = v.repeatability + v.reproducibility + v.part
  const share = (variance: number): GaugeShare => {
    const sd = Math.sqrt(variance)
    return {
      sd,
      ofStudy: 100 * Math.sqrt(variance / totalVariance),
      ofVariance: (100 * variance) / totalVariance,
      ...(o.tolerance === undefined ? {} : { ofTolerance: (100 * 6 * sd) / o.tolerance }),
    }
  }
  const gauge = v.repeatability + v.reproducibility
  if (!(gauge > 0))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'spread of repeated readings',
      value: 0,
      allowed: 'above 0: read to a finer part of a division',
    })
  return {
    method: o.method,
    unit: study.unit,
    counts,
    repeatability: share(v.repeatability),
    reproducibility: share(v.reproducibility),
    gauge: share(gauge),
    part: share(v.part),
    total: share(totalVariance),
    classes: 1.41 * Math.sqrt(v.part / gauge),
    handMeans: ranges.handMeans,
    ...(anova === undefined ? {} : { anova }),
    wild: ranges.wild,
    rangeLimit: ranges.rangeLimit,
  }
}

function countsOf(s: GaugeStudy): GaugeResult['counts'] {
  const counts = { parts: s.parts.length, hands: s.hands.length, trials: s.readings[0]?.[0]?.length ?? 0 }
  for (const [name, value] of Object.entries(counts))
    if (value < 2)
      throw new FaultError({ code: 'out-of-domain', name: `count of ${name}`, value, allowed: 'at least 2' })
  const spread = new Set(s.readings.flat(2)).size
  if (spread === 1)
    throw new FaultError({ code: 'out-of-domain', name: 'spread of the readings', value: 0, allowed: 'above 0' })
  return counts
}

/** What a study means, in a word and a sentence (limits of 10 and 30 %, and five classes: AIAG, 4th ed., II.D). */
export function gaugeWord(g: GaugeResult): { readonly word: 'good' | 'marginal' | 'poor'; readonly say: string } {
  const worst = g.gauge.ofTolerance ?? g.gauge.ofStudy
  const of = g.gauge.ofTolerance === undefined ? 'of the spread of this study' : 'of the tolerance'
  const percent = `${worst.toFixed(worst < 10 ? 1 : 0)} %`
  const classes = Math.max(1, Math.floor(g.classes))
  const word = worst > 30 ? 'poor' : worst > 10 || classes < 5 ? 'marginal' : 'good'
  const apart =
    classes === 1
      ? 'It cannot tell these parts apart.'
      : `It tells ${classes} classes of these parts apart; five are wanted.`
  const more =
    g.repeatability.sd >= g.reproducibility.sd
      ? 'Most of it is repeats by one hand: look at friction, reading resolution and contacts.'
      : 'Most of it lies between hands: agree how to set and read it.'
  const worth = {
    good: 'The measurement is good.',
    marginal: 'The measurement may do, depending on what it is for.',
    poor: 'The measurement is not fit for telling these parts apart.',
  }[word]
  return { word, say: `${worth} It makes ${percent} ${of}. ${apart} ${word === 'good' ? '' : more}`.trim() }
}
