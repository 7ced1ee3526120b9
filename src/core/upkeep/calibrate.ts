import { FaultError } from '#core/fault'
import { summarize } from '#core/numeric'
import { printPlain, standardUncertainty } from '#core/quantity'
import {
  type Calibration,
  type CalibrationPoint,
  correctionAt,
  type Range,
  type RangeCalibration,
  type ReadingKind,
  type Readout,
  readoutsOf,
  scaleOf,
  seenAtPart,
  type Tester,
  type TrustWord,
} from '#core/tester'
import { coverageFactor } from '#core/uncertainty'
import { adviceFor, type TrimAdvice } from './adjust.ts'
import { type Correction, correctionOf } from './correction.ts'

/** Readings of one range, or of one span of the gain dial, against a reference. */
export interface RangeReadings {
  readonly range: string
  /** Stands with a span of the dial. */
  readonly unit?: '1'
  readonly points: readonly CalibrationPoint[]
}

/** What one range came to. */
export interface CalibratedRange {
  readonly readout: Readout
  readonly points: readonly CalibrationPoint[]
  readonly correction: Correction
  readonly calibration: RangeCalibration
  /** Largest error as found, shown less reference, and the limit the description allows there. */
  readonly worst: { readonly error: number; readonly shown: number; readonly limit: number }
  /** Half-width of the 95 % interval of a corrected reading at the top of the calibrated span. */
  readonly expanded: number
  readonly advice: TrimAdvice
}

/** What is written at the head of a calibration. */
export type CalibrationHead = Omit<Calibration, 'ranges'>

/** A calibration worked out, ready to be kept with the tester. */
export interface Calibrated {
  readonly calibration: Calibration
  readonly ranges: readonly CalibratedRange[]
}

/** When a range is not to be trusted (common practice). */
export const trustRules = {
  /** Friction to either side beyond this part of the limit the description allows. */
  friction: 1,
  /** An error beyond so many of these limits is a fault to mend, not a deviation to correct. */
  fault: 5,
} as const

/**
 * Calibrates ranges and spans of the gain dial against a reference: correction, what each is worth, and what to trim.
 *
 * @param tester as described; its own calibrations are not looked at
 * @throws {FaultError} `out-of-domain` for a range with too few readings
 */
export function calibrate(
  tester: Tester,
  readings: readonly RangeReadings[],
  head: CalibrationHead,
  law: 'auto' | 'line' | 'curve' = 'auto',
): Calibrated {
  const { calibrations: _, ...described } = tester
  const found = readings.map((r) => {
    const readout = readoutsOf(tester).find(
      (known) => known.id === r.range && (known.unit === '1') === (r.unit === '1'),
    )!
    return calibrateRange(described, readout, r.points, head, law)
  })
  const ranges = found.map((f) => ({ ...f, advice: adviceFor(described, f, found) }))
  return { calibration: { ...head, ranges: ranges.map((r) => r.calibration) }, ranges }
}

/** A calibration that was kept, worked out again from its readings; nothing where they were not kept with it. */
export function calibrateAgain(tester: Tester, { ranges, ...head }: Calibration): Calibrated | undefined {
  const readings = ranges.flatMap(({ range, unit, points }) =>
    points === undefined ? [] : [{ range, points, ...(unit === undefined ? {} : { unit }) }],
  )
  if (readings.length === 0) return undefined
  const laws = new Set(ranges.map((r) => r.law.kind))
  return calibrate(tester, readings, head, laws.size === 1 ? [...laws][0] : 'auto')
}

function calibrateRange(
  tester: Tester,
  readout: Readout,
  points: readonly CalibrationPoint[],
  head: CalibrationHead,
  wanted: 'auto' | 'line' | 'curve',
): Omit<CalibratedRange, 'advice'> {
  const correction = correctionOf(points, wanted)
  const shown = points.map((p) => p.shown)
  const limits = points.map((p) => limitAt(tester, readout, p.shown, head))
  const worstAt = points.reduce(
    (best, p, i) => (excess(p, limits[i]!) > excess(points[best]!, limits[best]!) ? i : best),
    0,
  )
  const worst = {
    error: points[worstAt]!.shown - points[worstAt]!.reference,
    shown: points[worstAt]!.shown,
    limit: limits[worstAt]!,
  }
  const law = {
    law: correction.law,
    from: Math.min(...shown),
    to: Math.max(...shown),
    uReference: Math.max(0, ...points.map((p) => p.u ?? 0)),
    uRepeat: repeatOf(tester, readout, correction, shown),
    dof: correction.dof,
    points,
  }
  const named = { range: readout.id, ...(readout.unit === '1' ? { unit: readout.unit } : {}) }
  const bare: RangeCalibration = { ...named, trust: 'trusted', why: '', ...law }
  const expanded = halfWidth(bare, law.to)
  const { trust, why } = trustOf(readout, { points, limits, worst, correction, expanded })
  return { readout, points, correction, worst, expanded, calibration: { ...bare, trust, why } }
}

/** Half-width of the 95 % interval of a corrected reading; the scatter brings its degrees of freedom. */
export function halfWidth(c: RangeCalibration, shown: number): number {
  const scatter = Math.hypot(correctionAt(c, shown).u, c.uRepeat)
  const u = Math.hypot(scatter, c.uReference)
  if (u === 0) return 0
  const dof = c.dof === undefined || scatter === 0 ? Number.POSITIVE_INFINITY : c.dof * (u / scatter) ** 4
  return coverageFactor(dof, 0.95) * u
}

const excess = (p: CalibrationPoint, limit: number): number => Math.abs(p.shown - p.reference) / limit

/** What the description allows a reading to be wrong by: two standard uncertainties of the readout as described. */
function limitAt(
  tester: Tester,
  { id, unit, fullScale, range }: Readout,
  shown: number,
  head: CalibrationHead,
): number {
  const reads = unit === '1' ? 'h_FE' : unit === 'A' ? 'I_C' : 'V_CE'
  const seen = seenAtPart(range === undefined ? tester : onRange(tester, range, reads), {
    part: 'calibration',
    reads,
    shown: { kind: 'value', value: Math.min(Math.abs(shown), fullScale), unit },
    seen: String(shown),
    range: id,
    point: 1,
    ambientC: head.ambientC ?? tester.movement?.atC ?? 20,
  })
  if (!seen.ok) throw new FaultError(seen.faults)
  return 2 * standardUncertainty(seen.quantity)
}

/** The tester with one test, so that any of its ranges can be read. */
const onRange = (tester: Tester, range: Range, reads: ReadingKind): Tester => ({
  ...tester,
  tests: [{ reads, ranges: [range.id] }],
})

/** The scatter, friction as a rectangular limit, or what a reading leaves open by itself: whichever is most. */
const repeatOf = (
  tester: Tester,
  readout: Readout,
  { scatter, friction = 0 }: Correction,
  shown: readonly number[],
): number => Math.max(Number.isFinite(scatter) ? scatter : 0, friction / Math.sqrt(3), openOf(tester, readout, shown))

/** What reading it leaves open: half the smallest step, and of a dial how sharply it nulls, in the middle of what was shown. */
function openOf(tester: Tester, readout: Readout, shown: readonly number[]): number {
  const step = resolutionOf(tester, readout) / Math.sqrt(12)
  const { gain } = tester
  if (readout.unit !== '1' || gain.kind !== 'dial') return step
  return Math.hypot(step, (gain.nullWithin * summarize(shown).mean) / Math.sqrt(3))
}

/** The smallest step that can be read. */
function resolutionOf(tester: Tester, { range, fullScale }: Readout): number {
  const { gain } = tester
  if (range === undefined) return gain.kind === 'dial' ? gain.readable * fullScale : 0
  const { circuit } = range
  if (tester.kind !== 'needle') return circuit.kind === 'stated' || circuit.kind === 'unknown' ? circuit.step : 0
  const divisions = scaleOf(tester, range)?.divisions ?? 100
  return ((tester.movement?.readable ?? 1) * fullScale) / divisions
}

interface Evidence {
  readonly points: readonly CalibrationPoint[]
  readonly limits: readonly number[]
  readonly worst: CalibratedRange['worst']
  readonly correction: Correction
  readonly expanded: number
}

function trustOf({ unit }: Readout, e: Evidence): { readonly trust: TrustWord; readonly why: string } {
  const text = (x: number): string => printPlain(Math.abs(x), unit, { digits: 2 })
  const { worst } = e
  const way = worst.error < 0 ? 'low' : 'high'
  const found = `it reads ${text(worst.error)} ${way} at ${printPlain(worst.shown, unit, { digits: 3 })}, and the description allows ${text(worst.limit)}`
  const friction = e.correction.friction ?? 0
  if (friction > trustRules.friction * Math.min(...e.limits))
    return {
      trust: 'not trusted',
      why: `${unit === '1' ? 'The dial has play' : 'The needle sticks'}: readings from below and above lie ${text(2 * friction)} apart. Mend ${unit === '1' ? 'the dial' : 'the pivots'} first.`,
    }
  if (Math.abs(worst.error) > trustRules.fault * worst.limit)
    return { trust: 'not trusted', why: `Something is broken: ${found}. Mend it and calibrate again.` }
  const isInside = e.points.every((p, i) => Math.abs(p.shown - p.reference) + e.expanded <= e.limits[i]!)
  if (isInside) return { trust: 'trusted', why: `At its worst ${found}.` }
  return { trust: 'with corrections', why: `Uncorrected it may be outside what is described: ${found}.` }
}
