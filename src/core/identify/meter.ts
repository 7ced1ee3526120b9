import { findRoot } from '#core/numeric'
import { curveAtA, type Joined, type LeadCurve, leakAtV } from './lead-curve.ts'

/** The diode check of a meter: a current with a ceiling of voltage; above `openAboveV` it shows open. */
export interface DiodeCheck {
  readonly currentA: number
  readonly openAboveV: number
}

/** A range of ohms: what drives it, and the most it shows. */
export interface OhmsRange {
  readonly name: string
  readonly topOhm: number
  /** What it shows at least: its last digit, or the first mark of a scale, ohm. */
  readonly leastOhm: number
  /** Voltage with the leads open, V. */
  readonly openV: number
  /** Constant current of a digital range, A, or resistance of a needle range behind its cell, ohm. */
  readonly currentA?: number
  readonly sourceOhm?: number
}

/** What a meter does to a part, and how well it reads. */
export interface Meter {
  readonly name: string
  readonly diode: DiodeCheck
  readonly ohms: readonly OhmsRange[]
  /** Standard uncertainty shared by all its voltages (a part of the reading), and of one reading by itself, V. */
  readonly gainU: number
  readonly digitU: number
  /** Standard uncertainty of resistance and of leakage, decades. */
  readonly decadesU: number
  /** On ohms the lead marked minus is the positive one, as in most needle meters. */
  readonly ohmsReversed?: boolean
}

/** Digits that a range counts up to. */
const digitalCounts = 2000
const digitalTops = [200, 2e3, 2e4, 2e5, 2e6, 2e7]
const rangeName = (ohm: number): string => (ohm >= 1e6 ? `${ohm / 1e6}M` : ohm >= 1e3 ? `${ohm / 1e3}k` : `${ohm}`)

/** A digital meter as it is found on benches. Common practice, from memory: 1 mA, open above 3 V, 0.5 % and a digit. */
export const digitalMeter: Meter = {
  name: 'digital',
  diode: { currentA: 1e-3, openAboveV: leakAtV },
  ohms: digitalTops.map((topOhm) => ({
    name: rangeName(topOhm),
    topOhm,
    leastOhm: topOhm / digitalCounts,
    openV: 3,
    currentA: Math.min(1e-3, 0.7 / topOhm),
  })),
  gainU: 0.003,
  digitU: 0.0006,
  decadesU: 0.03,
}

/** A needle meter of 20 ohm at mid scale with a cell of 1.5 V. Common practice, from memory. */
export const needleMeter: Meter = {
  ...digitalMeter,
  name: 'needle',
  ohms: [1, 10, 100, 1000].map((times) => ({
    name: times === 1000 ? 'x1k' : `x${times}`,
    topOhm: 2000 * times,
    leastOhm: 0.5 * times,
    openV: 1.5,
    sourceOhm: 20 * times,
  })),
  decadesU: 0.06,
  ohmsReversed: true,
}

export const meters: readonly Meter[] = [digitalMeter, needleMeter]

/** A range of a meter, by its name. */
export const rangeNamed = (meter: Meter, name: string): OhmsRange => meter.ohms.find((r) => r.name === name)!

/**
 * What two leads show: a drop, resistance on a range, or open, with the current that still flows where it is known; with
 * the third lead as base, the gain; with a supply of 12 V through 100 kohm, the voltage that stands between them.
 */
export type Shown =
  | { readonly kind: 'volts'; readonly volts: number }
  | { readonly kind: 'open'; readonly range?: string }
  | { readonly kind: 'leak'; readonly amperes: number; readonly volts: number }
  | { readonly kind: 'ohms'; readonly ohm: number; readonly range: string }
  | { readonly kind: 'gain'; readonly gain: number }
  | { readonly kind: 'breakdown'; readonly volts: number }

/** A lead-pair reading. Leads count from 1. */
export interface LeadReading {
  readonly plus: number
  readonly minus: number
  /**
   * The third lead joined to plus or minus through 10 kohm; left out, it is open. Of a gain: where the base current came
   * from, plus for an NPN (plus is the collector), minus for a PNP (plus is the emitter).
   */
  readonly joined?: Joined
  /** The part was held between two fingers: some 8 K warmer. */
  readonly warmed?: true
  readonly shows: Shown
  /** Temperature of the part, degC; left out, that of a room. */
  readonly temperatureC?: number
}

/** What looks for breakdown: a supply behind a resistor that lets no more than 0.12 mA through. */
export const breakdownSupply = { openV: 12, sourceOhm: 100e3 } as const

/** Gain on the scale on which it is compared: no socket tells the smallest apart, nor shows more than the largest. */
export const gainDecades = (gain: number): number => Math.log10(Math.min(mostGain, gain) + leastGain)
/** The gain of a place on that scale. */
export const gainOf = (decades: number): number => Math.max(0, 10 ** decades - leastGain)
const leastGain = 0.3
export const mostGain = 2000

/** Below this leakage all is one, A: fingers and test leads carry more. */
export const leakFloorA = 1e-11

/** Resistance on the scale on which it is compared: a range does not tell the smallest apart. */
export const ohmDecades = (ohm: number, { leastOhm }: OhmsRange): number => Math.log10(Math.max(leastOhm, ohm))

/** Leakage on the scale on which it is compared: decades above 1 A, with the floor. */
export const leakDecades = (amperes: number): number => Math.log10(amperes + leakFloorA)

/** Logarithms of the currents at which a curve is kept. */
const curveLogs = curveAtA.map((i) => Math.log10(i))

/**
 * Voltage of a curve at a current, V: between the points that are kept in the logarithm of the current; `Infinity`
 * where the current does not flow. A thyristor that holds at one of them only is taken to hold from the one below.
 */
export function curveVolts(curve: LeadCurve, currentA: number): number {
  const at = Math.log10(currentA)
  const known = curveLogs
  const v = curve.volts
  if (at <= known[0]!) return belowCurve(curve, currentA)
  const k = Math.min(known.length - 2, Math.max(0, known.findIndex((x) => x >= at) - 1))
  const [low, high] = [v[k]!, v[k + 1]!]
  if (!Number.isFinite(high)) return Number.isFinite(low) ? low * (currentA / curveAtA[k]!) : high
  if (!Number.isFinite(low)) return high
  const share = (at - known[k]!) / (known[k + 1]! - known[k]!)
  return low + (high - low) * share
}

/**
 * Below the least current kept: by the leakage where that is smaller, between it and breakdown where that follows, else
 * as a junction or a resistance.
 */
function belowCurve(curve: LeadCurve, currentA: number): number {
  const [first, second] = curve.volts as readonly [number, number]
  const { leakA } = curve
  if (!(first <= leakAtV)) {
    if (currentA <= leakA) return (leakAtV * currentA) / leakA
    if (!Number.isFinite(first)) return first
    const share = Math.log(currentA / leakA) / Math.log(curveAtA[0] / leakA)
    return leakAtV + (first - leakAtV) * share
  }
  const decades = Math.log10(curveAtA[0] / currentA)
  const step = Number.isFinite(second) ? second - first : first
  return Math.max((first * currentA) / curveAtA[0], first - step * decades)
}

/** What a range of ohms shows, ohm; `Infinity` where it is over the top. */
export function rangeOhm(curve: LeadCurve, range: OhmsRange): number {
  const { currentA } = range
  if (currentA !== undefined) {
    const ohm = curveVolts(curve, currentA) / currentA
    return ohm > range.topOhm ? Number.POSITIVE_INFINITY : ohm
  }
  const sourceOhm = range.sourceOhm!
  const ohm = range.openV / drivenA(curve, { openV: range.openV, sourceOhm }) - sourceOhm
  return ohm > range.topOhm ? Number.POSITIVE_INFINITY : Math.max(0, ohm)
}

/**
 * What a range of ohms shows on a part that is warmer: its leakage carries so many times the current at each voltage,
 * which is as if the range had so much less.
 */
export function warmedOhm(curve: LeadCurve, range: OhmsRange, warmerK: number): number {
  const times = 10 ** (curve.decadesPerK * warmerK)
  const { currentA, sourceOhm, topOhm } = range
  const less = {
    ...range,
    topOhm: topOhm * times,
    ...(currentA === undefined ? {} : { currentA: currentA / times }),
    ...(sourceOhm === undefined ? {} : { sourceOhm: sourceOhm * times }),
  }
  return rangeOhm(curve, less) / times
}

interface Supply {
  readonly openV: number
  readonly sourceOhm: number
}

/** Least current that a supply is looked at with, as a decimal logarithm of amperes, and how near it is found, decades. */
const leastLog = -9
const logTolerance = 1e-7

/** Current that a supply drives through two leads, A. */
function drivenA(curve: LeadCurve, { openV, sourceOhm }: Supply): number {
  const most = openV / sourceOhm
  const above = (log: number): number => {
    const current = 10 ** log
    return Math.min(curveVolts(curve, current), 2 * openV) - openV + current * sourceOhm
  }
  if (above(leastLog) >= 0) return 10 ** leastLog
  if (above(Math.log10(most)) <= 0) return most
  return 10 ** findRoot(above, leastLog, Math.log10(most), { tolerance: logTolerance })
}

/** Voltage that stands between two leads on the supply that looks for breakdown, V: all of it where nothing gives way. */
export const breakdownVolts = (curve: LeadCurve): number =>
  Math.max(0, breakdownSupply.openV - drivenA(curve, breakdownSupply) * breakdownSupply.sourceOhm)
