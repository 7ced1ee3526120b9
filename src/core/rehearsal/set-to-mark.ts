import { causes, type Range, scaleOf } from '#core/tester'
import { correctionErrors, isCorrected } from './calibrated.ts'
import { type RealTester, realFullScale } from './real-tester.ts'
import { type Asked, type Sight, statedErrors, toStep } from './shown.ts'

/** The mark a person turns the needle to, and how finely it can be seen. */
export interface Mark {
  /** In divisions on a needle tester, else in the unit of the range. */
  readonly at: number
  readonly step: number
  readonly sight: Sight
}

/** The readable mark nearest to a wanted current, by the print of the scale. */
export function markFor({ described }: RealTester, range: Range, wanted: number): Mark {
  const on = { range: range.id, ...(range.scale === undefined ? {} : { scale: range.scale }) }
  const scale = scaleOf(described, range)
  if (described.kind === 'needle' && scale !== undefined) {
    const step = described.movement?.readable ?? 1
    const at = toStep((wanted / range.fullScale) * scale.divisions, step)
    return { at, step, sight: { shown: { kind: 'deflection', divisions: at }, seen: `${at} div`, ...on } }
  }
  const step = range.circuit.kind === 'stated' || range.circuit.kind === 'unknown' ? range.circuit.step : 0
  const at = toStep(wanted, step)
  return { at, step, sight: { shown: { kind: 'value', value: at, unit: 'A' }, seen: `${at} A`, ...on } }
}

/**
 * The true current at the part with the needle really at rest at a place: the way back of `restsAt`.
 *
 * @param place where it rests, in divisions or in the unit of the range
 * @param near the mark beside it, which says which part of the scale errs
 */
export function trueAt(
  t: RealTester,
  asked: Asked,
  range: Range,
  ambientC: number,
  place: number,
  near = place,
): number {
  const { described, draw } = t
  const divisions = described.kind === 'needle' ? scaleOf(described, range)!.divisions : range.fullScale
  const { circuit } = range
  const shown = (place / divisions) * range.fullScale
  if (isCorrected(t, range, shown)) return shown + correctionErrors(t, asked, range, ambientC, shown)
  if (circuit.kind === 'stated' || circuit.kind === 'unknown') {
    return shown + draw.errors(statedErrors(t, asked, range, shown))
  }
  const off = draw.error(causes.scaleError(described, described.movement!, near / divisions, divisions))
  return ((place + off) / divisions) * realFullScale(t, range, ambientC)
}
