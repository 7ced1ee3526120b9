import { devicePointOf, readOutput, type Sensitivity, sensitivity } from '#core/circuit'
import { probes, setAmbient } from './stage-circuit.ts'
import { type Stage, settled } from './stage-point.ts'
import { numbersAtC, transistorDevice } from './transistor-device.ts'

/** A stability factor by the solver, and by the textbook formula beside it where that holds. */
export interface StabilityFactor {
  readonly symbol: 'S(I_CO)' | 'S(V_BE)' | 'S(h_FE)'
  /** A/A, A/V and A. */
  readonly unit: '1' | 'S' | 'A'
  readonly solved: number
  readonly textbook?: number
  /** The formula, with R_B and R_E as the template has them. */
  readonly formula: string
}

/** What the textbook formulas take: gain, collector current (A), R_B of the base drive and R_E, ohm. */
export interface TextbookStage {
  readonly gain: number
  readonly collectorA: number
  readonly rbOhm: number
  readonly reOhm: number
}

/**
 * S(I_CO) = (h_FE + 1)(R_B + R_E) / (R_B + (h_FE + 1) R_E): what one ampere more of leakage does to the collector current.
 *
 * @see R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, ch. 4, bias stabilisation (from memory)
 * @example leakageFactor({ gain: 50, collectorA: 2e-3, rbOhm: 250e3, reOhm: 1e3 }) // 42.53
 */
export const leakageFactor = ({ gain, rbOhm: rb, reOhm: re }: TextbookStage): number =>
  ((gain + 1) * (rb + re)) / (rb + (gain + 1) * re)

/** S(V_BE) = -h_FE / (R_B + (h_FE + 1) R_E), S. @see as `leakageFactor` */
export const voltageFactor = ({ gain, rbOhm: rb, reOhm: re }: TextbookStage): number => -gain / (rb + (gain + 1) * re)

/**
 * S(h_FE) = I_C (R_B + R_E) / (h_FE (R_B + (h_FE' + 1) R_E)), A for one more of gain; h_FE' is the gain it changes to.
 *
 * @see as `leakageFactor`
 */
export const gainFactor = (t: TextbookStage, toGain = t.gain): number =>
  (t.collectorA * (t.rbOhm + t.reOhm)) / (t.gain * (t.rbOhm + (toGain + 1) * t.reOhm))

/** R_B and R_E of a position by its template; undefined where the textbook has no formula for it. */
export function biasOf({ position: { template, ohm } }: Stage): { rbOhm: number; reOhm: number } | undefined {
  if (template.bias === undefined) return undefined
  const of = (refs: readonly string[]): readonly number[] => refs.flatMap((r) => (ohm[r] === undefined ? [] : [ohm[r]]))
  return {
    rbOhm: 1 / of(template.bias.rb).reduce((sum, r) => sum + 1 / r, 0),
    reOhm: of(template.bias.re).reduce((sum, r) => sum + r, 0),
  }
}

/**
 * Stability factors of the place that is looked at, at 25 degC.
 *
 * @returns nothing for a diode, or where there is no operating point
 */
export function stability(s: Stage): readonly StabilityFactor[] {
  const { c, position: p, part } = s
  if (part.kind === 'diode') return []
  setAmbient(c, p, numbersAtC)
  if (!settled(c)) return []
  const d = devicePointOf(c, p.place)
  if (d.kind !== 'bipolar') return []
  const { slopes } = sensitivity(c, readOutput(c, `${p.place}.ic`))
  const gain = (d.smallSignal.gm ?? Number.NaN) * (d.smallSignal.rpi ?? Number.NaN)
  const bias = p.place === p.template.main ? biasOf(s) : undefined
  const book = bias === undefined ? undefined : { ...bias, gain, collectorA: d.ic }
  const { bf } = transistorDevice(part).card
  const byGain = ((slopes[`${p.place}.bf`] ?? Number.NaN) * bf) / gain
  return factors(slopes, byGain, book)
}

function factors(
  slopes: Sensitivity['slopes'],
  byGain: number,
  book: TextbookStage | undefined,
): readonly StabilityFactor[] {
  const beside = (f: (t: TextbookStage) => number) => {
    const textbook = book === undefined ? Number.NaN : f(book)
    return Number.isFinite(textbook) ? { textbook } : {}
  }
  return [
    {
      symbol: 'S(I_CO)',
      unit: '1',
      // the leakage itself is part of the collector's current
      solved: 1 + (slopes[probes.leakage] ?? Number.NaN),
      formula: '(h_FE + 1)(R_B + R_E) / (R_B + (h_FE + 1) R_E)',
      ...beside(leakageFactor),
    },
    {
      symbol: 'S(V_BE)',
      unit: 'S',
      solved: slopes[probes.voltage] ?? Number.NaN,
      formula: '-h_FE / (R_B + (h_FE + 1) R_E)',
      ...beside(voltageFactor),
    },
    {
      symbol: 'S(h_FE)',
      unit: 'A',
      solved: byGain,
      formula: 'I_C (R_B + R_E) / (h_FE (R_B + (h_FE + 1) R_E))',
      ...beside((t) => gainFactor(t)),
    },
  ]
}
