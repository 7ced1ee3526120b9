import { partWord, type Verdict, type VerdictWord } from '#core/judge'
import { standardUncertainty } from '#core/quantity'
import type { PartResult } from '#core/reduce'
import type { Driver } from './book.ts'
import { toJson } from './json.ts'

/** The newest value of one parameter, in short. */
export type Figure = readonly [unit: string, value: number, u: number, at25: number | null]

/** What a list of parts shows of the results of one. */
export interface Summary {
  readonly state: PartResult['state']
  readonly word?: VerdictWord
  /** By letter symbol. */
  readonly figures: Readonly<Record<string, Figure>>
}

/** Symbols that say something of the test or of one way to work it out, more than of the part. */
const leftOut: ReadonlySet<string> = new Set(['P', 'T_J', 'h_FE(I_CEO)', 'h_FE0(I_CBO)'])

/** Digits kept: more than any tester shows; a list of a hundred thousand parts stays light. */
const short = (value: number, digits: number): number => Number(value.toPrecision(digits))

/** A result in short: the first value of each symbol as measured, and beside it the one brought to 25 degC. */
export function summaryOf(result: PartResult, verdicts: readonly Verdict[]): Summary {
  const warm = result.parameters.filter((p) => p.standing !== 'measured')
  const figures: Record<string, Figure> = {}
  for (const { symbol, quantity, standing } of result.parameters) {
    if (standing !== 'measured' || leftOut.has(symbol) || symbol in figures) continue
    const at25 = warm.find((p) => p.symbol === symbol)?.quantity.value
    const u = short(standardUncertainty(quantity), 3)
    figures[symbol] = [quantity.unit, short(quantity.value, 5), u, at25 === undefined ? null : short(at25, 5)]
  }
  const word = partWord(result.state, verdicts)
  return { state: result.state, ...(word === undefined ? {} : { word }), figures }
}

/** Keeps summaries inside a transaction; one of an older run never goes over that of a newer one. */
export function newestSaver(driver: Driver): (run: number, part: number, summary: Summary) => void {
  const save = driver.prepare(
    `INSERT INTO newest (part, run, state, verdict, figures) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (part) DO UPDATE SET run = excluded.run, state = excluded.state, verdict = excluded.verdict,
       figures = excluded.figures
     WHERE excluded.run >= newest.run`,
  )
  return (run, part, { state, word, figures }) => {
    save.run(part, run, state, word ?? null, toJson(figures, 'figures'))
  }
}
