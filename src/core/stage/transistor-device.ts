import type { Device } from '#core/circuit'
import {
  deviceSettingDefaults,
  gainSlope,
  kelvin,
  type LawMaterial,
  leakageDoublings,
  thermalVoltage,
} from '#core/physics'
import type { Between, DiodeNumbers, PartNumbers, TransistorNumbers } from './part-numbers.ts'

/** Temperature the numbers of a part hold at, degC. */
export const numbersAtC = 25

const thermalV = thermalVoltage(kelvin(numbersAtC))

/** V_BE moved along the exponential from one collector current to another, A, at 25 degC. */
export function atCurrent({ low, usual, high }: Between, fromA: number, toA: number): Between {
  const by = thermalV * Math.log(toA / fromA)
  return { low: low + by, usual: usual + by, high: high + by }
}

/** Gap (V), power of I_S, Early voltage (V) and share of reverse in forward gain where a part's own are not known. */
const laws = {
  Ge: { eg: 0.67, xti: 3, vaf: 50, reverseShare: 1 / 5 },
  Si: { eg: 1.11, xti: 3, vaf: 80, reverseShare: 1 / 40 },
} as const satisfies Readonly<Record<LawMaterial, object>>

/** One value of each number of a transistor. */
export interface TransistorValues {
  readonly gain: number
  readonly leakageA: number
  readonly vbeV: number
}

/** The usual values of a transistor's numbers. */
export const usualValues = (n: TransistorNumbers): TransistorValues => ({
  gain: n.gain.usual,
  leakageA: n.leakageA.usual,
  vbeV: n.vbeV.usual,
})

/** Power of the law of gain that gives the material's slope at 25 degC. */
const gainPower = (material: LawMaterial): number => gainSlope[material].centre * kelvin(numbersAtC)

/** Emission of the leakage that doubles as the material's does at 25 degC, the law of gain taken off. */
function leakageEmission(material: LawMaterial): number {
  const t = kelvin(numbersAtC)
  const { eg, xti } = laws[material]
  const saturationSlope = xti / t + eg / (deviceSettingDefaults.voltsPerKelvin * t * t)
  return saturationSlope / (Math.LN2 * leakageDoublings[material].centre + gainPower(material) / t)
}

/**
 * A transistor whose operating point fits its numbers: at 25 degC, with the base current that takes gain and leakage
 * together to the stated collector current, it has that current and that V_BE; with the emitter open it has that I_CBO.
 *
 * What these numbers cannot say is taken: no series resistances, gain that does not change with current, Early voltage
 * and gap of the material (from memory), leakage that doubles and gain that rises as common practice has it.
 *
 * @see bipolarLaw: with I_E = 0, I_CBO = I_S / (B_F + q_b) + I_S / B_R + I_SC, and the surface beside it
 */
export function transistorDevice(n: TransistorNumbers, values: TransistorValues = usualValues(n)) {
  const { gain, leakageA } = values
  const { eg, xti, vaf, reverseShare } = laws[n.material]
  const perOhm = (n.surface * leakageA) / n.leakageAtV
  const junctionA = (1 - n.surface) * leakageA
  const { collectorA, v } = fitPoint(n, values)
  const openBaseA = (gain + 1) * (junctionA + perOhm * (n.atV - v))
  const baseA = (collectorA - openBaseA) / gain + perOhm * (n.atV - v)
  const throughA = collectorA - perOhm * (n.atV - v)
  const charge = 1 / (1 + (n.atV - v) / vaf)
  const openCharge = 1 / (1 + n.leakageAtV / vaf)
  let is = collectorA / Math.expm1(v / thermalV)
  let bf = gain
  let split = splitLeakage(junctionA, is, bf, openCharge, reverseShare)
  // the three numbers hold each other only loosely: a few rounds settle them to rounding
  for (let k = 0; k < 60; k++) {
    const forward = (throughA - split.totalA) * charge - is
    bf = forward / (baseA + split.totalA)
    is = forward / Math.expm1(v / thermalV)
    split = splitLeakage(junctionA, is, bf, openCharge, reverseShare)
  }
  const { br, isc } = split
  const nc = leakageEmission(n.material)
  const card = { is, bf, vaf, br, isc, nc, xtb: gainPower(n.material), eg, xti, tnom: numbersAtC }
  const polarity = n.polarity === 'NPN' ? ('npn' as const) : ('pnp' as const)
  return { kind: 'bipolar' as const, polarity, card, leakOhm: perOhm > 0 ? { cb: 1 / perOhm } : {} }
}

/** Collector current and V_BE that are fitted: a leaky part cannot be taken below its own leakage. */
export function fitPoint(n: TransistorNumbers, { gain, leakageA, vbeV }: TransistorValues) {
  const collectorA = Math.max(n.atA, 2 * (gain + 1) * leakageA)
  return { collectorA, v: vbeV + thermalV * Math.log(collectorA / n.atA) }
}

/** Least that is left to the collector junction of I_S, where V_BE and leakage do not go together. */
const leastShare = 1e-3

/** What of the junction's leakage the collector takes: the reverse share of I_S first, the rest as leakage of its own. */
function splitLeakage(junctionA: number, is: number, bf: number, openCharge: number, reverseShare: number) {
  const totalA = Math.max(leastShare * Math.max(junctionA, is), junctionA - is / (bf + openCharge))
  const br = Math.max(reverseShare * bf, is / totalA)
  return { br, isc: Math.max(0, totalA - is / br), totalA }
}

/** Emission, gap (V) and voltage at 1 mA of a diode's junction. All `from memory` */
const diodeLaws = { Ge: { n: 1.3, eg: 0.67, at1mA: 0.25 }, Si: { n: 1.8, eg: 1.11, at1mA: 0.58 } } as const

/**
 * A diode with its V_F, and its leakage as a resistance beside it, at 25 degC. What V_F has beyond that of a junction of
 * its material is taken as series resistance.
 */
export function diodeDevice(d: DiodeNumbers): Device {
  const { n, eg, at1mA } = diodeLaws[d.material]
  const forwardV = d.forwardV.usual
  const junctionV = Math.min(forwardV, at1mA + n * thermalV * Math.log(d.atA / 1e-3))
  const is = d.atA / Math.expm1(junctionV / (n * thermalV))
  const outsideA = d.leakageA.usual - is
  const parallel = outsideA > 0 ? { parallelOhm: d.leakageAtV / outsideA } : {}
  return { kind: 'diode', card: { is, n, rs: (forwardV - junctionV) / d.atA, eg, tnom: numbersAtC }, ...parallel }
}

/** The device of a part with its usual numbers. */
export const deviceOf = (n: PartNumbers): Device => (n.kind === 'diode' ? diodeDevice(n) : transistorDevice(n))
