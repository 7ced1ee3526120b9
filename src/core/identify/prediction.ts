import type { LeadCurve } from './lead-curve.ts'
import { type Condition, curvesOf, type LikelihoodTable } from './likelihood-table.ts'
import shipped from './likelihoods.gen.json'
import {
  breakdownVolts,
  curveVolts,
  gainDecades,
  leakDecades,
  type Meter,
  ohmDecades,
  rangeNamed,
  warmedOhm,
} from './meter.ts'
import type { Observation } from './observation.ts'
import { fingersWarmK } from './trial.ts'

/** The table that is shipped. */
export const likelihoods: LikelihoodTable = shipped

/** What each imagined part would show: the chance that it is what was seen, and the number on the scale. */
export interface Prediction {
  readonly chance: Float64Array
  readonly y: Float64Array
  readonly perK: Float64Array
  /** Whether none of them shows what was seen, but for a slip. */
  readonly isSlip: boolean
}

/** Chance that a reading is not what the part shows: a lead missed, a slip of the pen. */
export const slip = 2e-3
/** How near the threshold of open a meter may say either, V. */
const edgeV = 0.04

/** Whether what was seen is not what an imagined part shows, but for a slip. */
export const isSlip = (chance: number): boolean => chance <= slip * 1.01

const kept = (chance: number): number => Math.min(1 - slip, Math.max(slip, chance))
const opens = (volts: number, aboveV: number): number =>
  Number.isFinite(volts) ? 1 / (1 + Math.exp(-(volts - aboveV) / edgeV)) : 1

interface One {
  readonly chance: number
  readonly y: number
  readonly perK: number
}

/** What a prediction depends on, beside where the meter is put. */
type Way = Pick<Observation, 'scale' | 'range' | 'warmed'>

/** What one curve, warmed by so much, shows on a range of ohms. */
function ohmsBy(curve: LeadCurve, o: Way, meter: Meter, warmedK: number): One {
  const range = rangeNamed(meter, o.range!)
  const ohm = warmedOhm(curve, range, warmedK)
  const isOver = !Number.isFinite(ohm)
  const y = isOver ? 0 : ohmDecades(ohm, range)
  return { chance: kept(isOver === (o.scale === 'open') ? 1 : 0), y, perK: 0 }
}

/** What one curve would show in the way of an observation. */
function shownBy(curve: LeadCurve, o: Way, meter: Meter, warmedK: number): One {
  if (o.range !== undefined) return ohmsBy(curve, o, meter, warmedK)
  if (o.scale === 'gain') return { chance: kept(1), y: gainDecades(curve.gain ?? 0), perK: 0 }
  if (o.scale === 'breakdown') return { chance: kept(1), y: breakdownVolts(curve), perK: 0 }
  const volts = curveVolts(curve, meter.diode.currentA)
  const open = opens(volts, meter.diode.openAboveV)
  if (o.scale === 'open') return { chance: kept(open), y: 0, perK: 0 }
  if (o.scale === 'leak') return { chance: kept(open), y: leakDecades(curve.leakA), perK: curve.decadesPerK }
  return { chance: kept(1 - open), y: Number.isFinite(volts) ? volts : 9, perK: curve.voltsPerK }
}

const curvesKnown = new Map<Condition, (readonly LeadCurve[] | undefined)[]>()

/** Curves of a condition in the shipped table for one way to put the meter on, read once. */
function knownCurves(c: Condition, way: number): readonly LeadCurve[] {
  const known = curvesKnown.get(c) ?? []
  if (known.length === 0) curvesKnown.set(c, known)
  known[way] ??= curvesOf(likelihoods, c, way)
  return known[way]
}

/** Predictions of one way to test, by condition and simulated pair. */
type OfWay = Map<Condition, (Prediction | undefined)[]>

const made = new WeakMap<Meter, Map<string, OfWay>>()
/** The same by the observation or trial itself, which is asked about for hundreds of hypotheses. */
const known = new WeakMap<Way, { readonly meter: Meter; readonly of: OfWay }>()

/** What was predicted for a way to test, made once for each meter. */
function predictionsOf(o: Way, meter: Meter): OfWay {
  const found = known.get(o)
  if (found?.meter === meter) return found.of
  const ways = made.get(meter) ?? new Map<string, OfWay>()
  made.set(meter, ways)
  const key = `${o.scale} ${o.range ?? ''} ${o.warmed ?? ''}`
  const of: OfWay = ways.get(key) ?? new Map()
  ways.set(key, of)
  known.set(o, { meter, of })
  return of
}

/** What the imagined parts of a condition show between a simulated pair. */
export function predict(c: Condition, pair: number, o: Way, meter: Meter): Prediction {
  const ofWay = predictionsOf(o, meter)
  const ofCondition = ofWay.get(c) ?? []
  if (ofCondition.length === 0) ofWay.set(c, ofCondition)
  ofCondition[pair] ??= predictAnew(c, pair, o, meter)
  return ofCondition[pair]
}

type Column = Float64Array

function predictAnew(c: Condition, pair: number, o: Way, meter: Meter): Prediction {
  const warmth = (n: number): number => (o.warmed ? fingersWarmK(n, likelihoods.draws) : 0)
  const curves = knownCurves(c, pair)
  const [chance, y, perK] = [0, 1, 2].map(() => new Float64Array(curves.length)) as [Column, Column, Column]
  for (let n = 0; n < curves.length; n++) {
    const one = shownBy(curves[n]!, o, meter, warmth(n))
    chance[n] = one.chance
    y[n] = one.y
    perK[n] = one.perK
  }
  return { chance, y, perK, isSlip: chance.every(isSlip) }
}
