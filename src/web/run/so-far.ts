import { FaultError } from '#core/fault'
import { judge, type Verdict } from '#core/judge'
import { type Parameter, type PartResult, reduceReadings } from '#core/reduce'
import type { RunSheet } from '#core/sheet'
import type { Reading } from '#core/tester'

/** A parameter of the part on the bench, and how it came out. */
export interface Row {
  readonly parameter: Parameter
  readonly verdicts: readonly Verdict[]
}

export interface SoFar {
  readonly result: PartResult
  readonly rows: readonly Row[]
}

/** What the readings of one part come to, by the same functions as in the book; undefined while they make no whole. */
export function soFar(sheet: RunSheet, readings: readonly Reading[]): SoFar | undefined {
  if (readings.length === 0) return undefined
  try {
    const { partType } = sheet
    const [result] = reduceReadings(sheet.tester, readings, { types: () => partType })
    if (result === undefined) return undefined
    const verdicts = partType === undefined ? [] : judge(result.parameters, partType, { unmeasured: false })
    return { result, rows: rowsOf(result, verdicts) }
  } catch (e) {
    if (e instanceof FaultError) return undefined
    throw e
  }
}

/** Points of one parameter, told apart where there are several. */
function rowsOf(result: PartResult, verdicts: readonly Verdict[]): readonly Row[] {
  return result.parameters
    .filter((p) => p.standing === 'measured')
    .map((parameter) => ({
      parameter,
      verdicts: verdicts.filter((v) => v.parameter === parameter.symbol && v.conditions === parameter.conditions),
    }))
}
