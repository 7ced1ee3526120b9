import type { Term } from '#core/quantity'
import { causes, gainSeen, type Range, type Reading, type ReadingState, type Shown, scaleOf } from '#core/tester'
import { correctionErrors, isCorrected, unrounded } from './calibrated.ts'
import { type RealTester, realFullScale } from './real-tester.ts'

/** What a person reads: the number or state, how they would type it, and the range it stands on. */
export type Sight = Pick<Reading, 'shown' | 'seen' | 'range' | 'scale'>

/** A reading before it is read: whose it is, of what, at which point. */
export type Asked = Pick<Reading, 'part' | 'type' | 'reads' | 'point'>

/** Below this part of full scale a person turns to a finer range where there is one (common practice). */
const lowFraction = 0.2

/** Where there is a finer range, it must hold the value with some room (common practice). */
const roomy = 0.95

/**
 * What is shown for a current or voltage at the part, on the range a person ends on: up from the first where the needle
 * goes over, down where it stands low.
 *
 * @param ranges ranges that can be switched in
 * @param start range the run sheet names
 * @param valueOn true value at the part with the tester on a range, A or V
 */
export function sightOf(
  t: RealTester,
  asked: Asked,
  { ranges, start }: { readonly ranges: readonly Range[]; readonly start: Range },
  ambientC: number,
  valueOn: (range: Range) => number,
): { readonly sight: Sight; readonly value: number; readonly range: Range } {
  const ladder = ranges.filter((r) => r.measures === start.measures).sort((a, b) => a.fullScale - b.fullScale)
  let at = ladder.findIndex((r) => r.id === start.id)
  const known = new Map<string, number>()
  const value = (range: Range): number => {
    const found = known.get(range.id) ?? valueOn(range)
    known.set(range.id, found)
    return found
  }
  const fractionOn = (range: Range): number => value(range) / realFullScale(t, range, ambientC)
  while (at >= 0 && at + 1 < ladder.length && fractionOn(ladder[at]!) > 1) at++
  while (at > 0 && fractionOn(ladder[at]!) < lowFraction && fractionOn(ladder[at - 1]!) < roomy) at--
  const range = ladder[at] ?? start
  return { sight: sightOn(t, asked, range, ambientC, value(range)), value: value(range), range }
}

/** What is shown for a value on one range. */
export const sightOn = (t: RealTester, asked: Asked, range: Range, ambientC: number, value: number): Sight =>
  t.described.kind === 'needle'
    ? byNeedle(t, asked, range, ambientC, value)
    : byDigits(t, asked, range, ambientC, value)

/** Where the needle really comes to rest, in divisions of the scale, before anybody reads it. */
export function restsAt(t: RealTester, asked: Asked, range: Range, ambientC: number, value: number): number {
  const divisions = scaleOf(t.described, range)!.divisions
  const { circuit } = range
  const corrected = correctedShown(t, asked, range, ambientC, value)
  if (corrected !== undefined) return (corrected / range.fullScale) * divisions
  if (circuit.kind === 'stated' || circuit.kind === 'unknown') {
    const seen = settled(value, (v) => t.draw.errors(statedErrors(t, asked, range, v)))
    return (seen / range.fullScale) * divisions
  }
  const m = t.described.movement!
  const at = (value / realFullScale(t, range, ambientC)) * divisions
  // a needle with its zero at the left has no scale below it
  const onScale = (d: number): number => (m.zero === 'left' ? Math.max(0, d) : d) / divisions
  return settled(at, (d) => t.draw.error(causes.scaleError(t.described, m, onScale(d), divisions)))
}

/** What a calibrated range shows of a value, before anybody reads it; nothing where no calibration corrects it there. */
function correctedShown(
  t: RealTester,
  asked: Asked,
  range: Range,
  ambientC: number,
  value: number,
): number | undefined {
  if (!isCorrected(t, range, value)) return undefined
  const shown = settled(value, (v) => correctionErrors(t, asked, range, ambientC, v))
  return isCorrected(t, range, shown) ? shown : undefined
}

/**
 * What is shown for a true value where the error is one of what is shown: seen + error(seen) = true. Where the error
 * jumps, from one part of a scale to the next, and neither side fits, it rests between the two.
 */
function settled(value: number, errorAt: (seen: number) => number): number {
  let before = value
  let seen = value
  for (let i = 0; i < 12; i++) [before, seen] = [seen, value - errorAt(seen)]
  return Math.abs(seen - before) <= 1e-6 * Math.abs(value) ? seen : (seen + before) / 2
}

function byNeedle(t: RealTester, asked: Asked, range: Range, ambientC: number, value: number): Sight {
  const scale = scaleOf(t.described, range)!
  const { readable, zero } = t.described.movement ?? { readable: 1, zero: 'left' }
  const read = toStep(restsAt(t, asked, range, ambientC, value), readable)
  const on = { range: range.id, ...(range.scale === undefined ? {} : { scale: range.scale }) }
  if (read > scale.divisions) return { ...stateSight('over'), ...on }
  // a needle that rests on its stop shows nothing
  const divisions = zero === 'centre' ? read : Math.max(0, read)
  return { shown: { kind: 'deflection', divisions }, seen: `${divisions} div`, ...on }
}

function byDigits(t: RealTester, asked: Asked, range: Range, ambientC: number, value: number): Sight {
  const { circuit } = range
  const step = circuit.kind === 'stated' || circuit.kind === 'unknown' ? circuit.step : 0
  const seen =
    correctedShown(t, asked, range, ambientC, value) ??
    settled(value, (v) => t.draw.errors(statedErrors(t, asked, range, v)))
  const number = Math.max(0, toStep(seen, step))
  if (number > range.fullScale) return { ...stateSight('over'), range: range.id }
  const unit = range.measures === 'current' ? 'A' : 'V'
  return { shown: { kind: 'value', value: number, unit }, seen: typed(number, step, unit), range: range.id }
}

/** Errors of a statement at a value, as the budget of that reading has them. */
export function statedErrors({ described }: RealTester, asked: Asked, range: Range, value: number): readonly Term[] {
  const { circuit } = range
  const r: Reading = { ...asked, shown: { kind: 'state', state: 'clear' }, seen: '', range: range.id }
  if (circuit.kind === 'stated') return causes.statedError(described, range, r, value)
  return circuit.kind === 'unknown' ? causes.assumedError(described, range, circuit.assumed, value) : []
}

/**
 * What dial or display shows for a true gain.
 *
 * @param start span of the dial the run sheet names
 */
export function gainSight(t: RealTester, asked: Asked, gain: number, start: string | undefined): Sight {
  const { gain: readout } = t.described
  if (readout.kind === 'dial') {
    const spans = [...readout.spans].sort((a, b) => Number(b.id === start) - Number(a.id === start))
    for (const span of spans) {
      const within = (h: number): number => Math.min(span.to, Math.max(span.from, h))
      const step = readout.readable * span.to
      const seen = settled(gain, (h) => ownErrors(t, asked, within(h), step, span.id))
      const value = toStep(seen, step)
      if (value >= span.from && value <= span.to) return { ...numberSight(value), range: span.id }
    }
    return { ...stateSight('no null'), ...(start === undefined ? {} : { range: start }) }
  }
  const step = readout.kind === 'digital' ? readout.step : 1
  const seen = settled(gain, (h) => ownErrors(t, asked, Math.max(0, h), step))
  return numberSight(Math.max(0, toStep(seen, step)))
}

const isResolution = (t: Term): boolean => t.cause.endsWith('/resolution')

/**
 * Errors of a gain readout at a gain, as the budget of that reading has them, with what a calibration corrects; its
 * rounding happens by itself.
 */
function ownErrors(t: RealTester, asked: Asked, gain: number, step: number, span?: string): number {
  const shown: Shown = { kind: 'value', value: gain, unit: '1' }
  const seen = gainSeen(t.described, { ...asked, shown, seen: '', ...(span === undefined ? {} : { range: span }) })
  if (!seen.ok) return 0
  const { value, budget } = seen.quantity
  const own = budget.filter((term) => !isResolution(term))
  return value - gain + t.draw.errors(unrounded(own, step))
}

/** The nearest value one can read. */
export const toStep = (x: number, step: number): number =>
  step > 0 ? Number((Math.round(x / step) * step).toPrecision(12)) : x

const stateSight = (state: ReadingState): Sight => ({ shown: { kind: 'state', state }, seen: state })

const numberSight = (value: number): Sight => ({ shown: { kind: 'value', value, unit: '1' }, seen: String(value) })

const prefixes = [
  ['', 1],
  ['m', 1e-3],
  ['u', 1e-6],
  ['n', 1e-9],
] as const

/** A displayed number as a person types it: in the prefix in which the last digit is 0.001 or more. */
function typed(value: number, step: number, unit: 'A' | 'V'): string {
  const [prefix, size] = prefixes.find(([, s]) => step >= 0.99e-3 * s) ?? prefixes[3]
  const decimals = step > 0 ? Math.max(0, -Math.floor(Math.log10(step / size) + 1e-9)) : 6
  return `${(value / size).toFixed(decimals)} ${prefix}${unit}`
}
