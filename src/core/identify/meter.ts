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

const digitalTops = [200, 2e3, 2e4, 2e5, 2e6, 2e7]
const rangeName = (ohm: number): string => (ohm >= 1e6 ? `${ohm / 1e6}M` : ohm >= 1e3 ? `${ohm / 1e3}k` : `${ohm}`)

/** A digital meter as it is found on benches. Common practice, from memory: 1 mA, open above 3 V, 0.5 % and a digit. */
export const digitalMeter: Meter = {
  name: 'digital',
  diode: { currentA: 1e-3, openAboveV: leakAtV },
  ohms: digitalTops.map((topOhm) => ({
    name: rangeName(topOhm),
    topOhm,
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
    openV: 1.5,
    sourceOhm: 20 * times,
  })),
  decadesU: 0.06,
  ohmsReversed: true,
}

export const meters: readonly Meter[] = [digitalMeter, needleMeter]

/** What two leads show: a drop, resistance on a range, or open, with the current that still flows where it is known. */
export type Shown =
  | { readonly kind: 'volts'; readonly volts: number }
  | { readonly kind: 'open'; readonly range?: string }
  | { readonly kind: 'leak'; readonly amperes: number; readonly volts: number }
  | { readonly kind: 'ohms'; readonly ohm: number; readonly range: string }

/** A lead-pair reading. Leads count from 1. */
export interface LeadReading {
  readonly plus: number
  readonly minus: number
  /** The third lead joined to plus or minus through 10 kohm; left out, it is open. */
  readonly joined?: Joined
  readonly shows: Shown
  /** Temperature of the part, degC; left out, that of a room. */
  readonly temperatureC?: number
}

/** Below this leakage all is one, A: fingers and test leads carry more. */
export const leakFloorA = 1e-11

/** Leakage on the scale on which it is compared: decades above 1 A, with the floor. */
export const leakDecades = (amperes: number): number => Math.log10(amperes + leakFloorA)

/**
 * Voltage of a curve at a current, V: between the points that are kept in the logarithm of the current; `Infinity`
 * where the current does not flow.
 */
export function curveVolts(curve: LeadCurve, currentA: number): number {
  const at = Math.log10(currentA)
  const known = curveAtA.map((i) => Math.log10(i))
  const v = curve.volts
  if (at <= known[0]!) return belowCurve(curve, currentA)
  const k = Math.min(known.length - 2, Math.max(0, known.findIndex((x) => x >= at) - 1))
  const [low, high] = [v[k]!, v[k + 1]!]
  if (!Number.isFinite(high)) return Number.isFinite(low) ? low * (currentA / curveAtA[k]!) : high
  const share = (at - known[k]!) / (known[k + 1]! - known[k]!)
  return low + (high - low) * share
}

/** Below the least current kept: by the leakage where that is smaller, else as a junction or a resistance. */
function belowCurve(curve: LeadCurve, currentA: number): number {
  const [first, second] = curve.volts as readonly [number, number]
  if (!Number.isFinite(first) || first > leakAtV)
    return currentA > curve.leakA ? Number.POSITIVE_INFINITY : (leakAtV * currentA) / curve.leakA
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
  let [low, high] = [1e-9, range.openV / range.sourceOhm!]
  for (let k = 0; k < 40; k++) {
    const middle = Math.sqrt(low * high)
    if (curveVolts(curve, middle) > range.openV - middle * range.sourceOhm!) high = middle
    else low = middle
  }
  const ohm = range.openV / low - range.sourceOhm!
  return ohm > range.topOhm ? Number.POSITIVE_INFINITY : Math.max(0, ohm)
}
