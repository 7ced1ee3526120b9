import { type GaugeOptions, type GaugeResult, gaugeStudy, gaugeWord, readGaugeStudy } from '#core/upkeep'
import { gaugeSheet, type Sheet } from '#report/sheet'

/** What several hands read, worked out, with the sheet that says it. */
export interface Gauged {
  readonly hands: readonly string[]
  readonly result: GaugeResult
  readonly sheet: Sheet
}

/**
 * Repeatability and reproducibility from a table of readings.
 *
 * @param options tolerance may be given once the unit is known
 * @throws {FaultError} every fault of the table
 */
export function gaugeFile(
  input: { readonly text: string; readonly file: string },
  options: (unit: GaugeResult['unit']) => Partial<GaugeOptions>,
): Gauged {
  const study = readGaugeStudy(input.text, input.file)
  const result = gaugeStudy(study, options(study.unit))
  return { hands: study.hands, result, sheet: gaugeSheet(study, result) }
}

/** The document of a study, for scripts. */
export interface GaugeDocument extends Omit<GaugeResult, 'handMeans' | 'anova'> {
  readonly format: 'germane/gauge/1'
  readonly hands: readonly { readonly name: string; readonly mean: number }[]
  readonly anova?: Omit<NonNullable<GaugeResult['anova']>, 'variances'>
  readonly word: string
  readonly say: string
}

export function gaugeDocument({ hands, result }: Gauged): GaugeDocument {
  const { handMeans, anova, ...rest } = result
  const { variances: _, ...table } = anova ?? { variances: undefined }
  return {
    format: 'germane/gauge/1',
    ...rest,
    hands: hands.map((name, i) => ({ name, mean: handMeans[i]! })),
    ...(anova === undefined ? {} : { anova: table as NonNullable<GaugeDocument['anova']> }),
    ...gaugeWord(result),
  }
}
