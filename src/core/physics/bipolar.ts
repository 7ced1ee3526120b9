import { type DeviceSetting, deviceSettingDefaults, lawTemperature, nominalTemperature } from './device-setting.ts'
import { junctionLaw, junctionOut, saturationAtTemperature } from './junction.ts'

/**
 * A bipolar transistor as its `.model` card gives it: the DC parameters of the Gummel-Poon model under their SPICE
 * names, SI units, `tnom` in degC. What is left out takes its default; a voltage or knee of 0 or left out is infinite.
 */
export interface BipolarCard {
  /** Transport saturation current, A. */
  readonly is?: number
  /** Forward gain, emission, Early voltage (V) and knee (A). */
  readonly bf?: number
  readonly nf?: number
  readonly vaf?: number
  readonly ikf?: number
  /** Base-emitter leakage current, A, and its emission. */
  readonly ise?: number
  readonly ne?: number
  /** Reverse gain, emission, Early voltage (V) and knee (A). */
  readonly br?: number
  readonly nr?: number
  readonly var?: number
  readonly ikr?: number
  /** Base-collector leakage current, A, and its emission. */
  readonly isc?: number
  readonly nc?: number
  /** Base resistance at no current, the current at which it is half fallen (A), and its least value; ohm. */
  readonly rb?: number
  readonly irb?: number
  readonly rbm?: number
  /** Emitter and collector resistance, ohm. */
  readonly re?: number
  readonly rc?: number
  /** Power of the temperature laws of gain; gap, V, and power of the law of I_S. */
  readonly xtb?: number
  readonly eg?: number
  readonly xti?: number
  /** Temperature the card holds at, degC. */
  readonly tnom?: number
}

/** Defaults of SPICE (ngspice 39 manual, table 8.2.1); `rbm` follows `rb`. */
export const bipolarCardDefaults = {
  is: 1e-16,
  bf: 100,
  nf: 1,
  ise: 0,
  ne: 1.5,
  br: 1,
  nr: 1,
  isc: 0,
  nc: 2,
  rb: 0,
  re: 0,
  rc: 0,
  xtb: 0,
  eg: 1.11,
  xti: 3,
  tnom: 27,
} as const

/** A bipolar transistor at one temperature. Steps are emission times V_T, V; inverse voltages and knees in 1/V, 1/A. */
export interface BipolarModel {
  is: number
  bf: number
  br: number
  ise: number
  isc: number
  forwardStep: number
  reverseStep: number
  emitterStep: number
  collectorStep: number
  perVaf: number
  perVar: number
  perIkf: number
  perIkr: number
  rb: number
  rbm: number
  irb: number
  re: number
  rc: number
  gmin: number
}

/**
 * Currents into collector and base by the inner junction voltages, and how they change: `icByVbe` is the change of I_C
 * with V_BE at constant V_BC, S. `rbOhm` is the base resistance at this point, its slopes in ohm/V.
 */
export interface BipolarOut {
  ic: number
  ib: number
  icByVbe: number
  icByVbc: number
  ibByVbe: number
  ibByVbc: number
  rbOhm: number
  rbByVbe: number
  rbByVbc: number
}

export function bipolarOut(): BipolarOut {
  const o = Number.NaN
  return { ic: o, ib: o, icByVbe: o, icByVbc: o, ibByVbe: o, ibByVbc: o, rbOhm: o, rbByVbe: o, rbByVbc: o }
}

const inverse = (x: number | undefined): number => (x === undefined || x === 0 ? 0 : 1 / x)

/**
 * A bipolar card brought to a temperature: I_S by gap and power, gains as (T / T_nom)^XTB, leakage currents by the
 * root of the law of I_S that their emission takes, divided by the law of gain. Resistances and Early voltages stay.
 *
 * @param temperatureK above 0 K
 * @param into a model to write over, so that a sweep allocates nothing
 * @throws {FaultError} `out-of-domain` at or below 0 K
 * @see ngspice 39 manual, 1.1 to 1.5 and 8.2
 */
export function bipolarAt(
  card: BipolarCard,
  temperatureK: number,
  setting: DeviceSetting = deviceSettingDefaults,
  into: BipolarModel = emptyModel(),
): BipolarModel {
  const d = bipolarCardDefaults
  const t = lawTemperature(temperatureK)
  const vt = setting.voltsPerKelvin * t
  const ne = card.ne ?? d.ne
  const nc = card.nc ?? d.nc
  scaleCurrents(card, t, setting.voltsPerKelvin, into)
  into.forwardStep = (card.nf ?? d.nf) * vt
  into.reverseStep = (card.nr ?? d.nr) * vt
  into.emitterStep = ne * vt
  into.collectorStep = nc * vt
  into.perVaf = inverse(card.vaf)
  into.perVar = inverse(card.var)
  into.perIkf = inverse(card.ikf)
  into.perIkr = inverse(card.ikr)
  into.rb = card.rb ?? d.rb
  into.rbm = card.rbm ?? into.rb
  into.irb = card.irb ?? 0
  into.re = card.re ?? d.re
  into.rc = card.rc ?? d.rc
  into.gmin = setting.gminS
  return into
}

/** I_S, I_SE, I_SC and both gains at a temperature. */
function scaleCurrents(card: BipolarCard, t: number, kq: number, into: BipolarModel): void {
  const d = bipolarCardDefaults
  const nominal = nominalTemperature(card.tnom)
  const law = { gapV: card.eg ?? d.eg, power: card.xti ?? d.xti, emission: 1 }
  const growth = saturationAtTemperature(1, law, nominal, t, kq)
  const gain = (t / nominal) ** (card.xtb ?? d.xtb)
  into.is = (card.is ?? d.is) * growth
  into.bf = (card.bf ?? d.bf) * gain
  into.br = (card.br ?? d.br) * gain
  into.ise = card.ise === undefined ? 0 : (card.ise * growth ** (1 / (card.ne ?? d.ne))) / gain
  into.isc = card.isc === undefined ? 0 : (card.isc * growth ** (1 / (card.nc ?? d.nc))) / gain
}

const be = junctionOut()
const bc = junctionOut()
const beLeak = junctionOut()
const bcLeak = junctionOut()

/**
 * The Gummel-Poon law: currents into collector and base of an NPN transistor by its inner junction voltages. For PNP
 * turn the sign of all voltages and currents.
 *
 * I_C = (I_F - I_R) / q_b - I_R / B_R - I_LC, I_B = I_F / B_F + I_LE + I_R / B_R + I_LC, with
 * q_b = q_1 (1 + sqrt(1 + 4 q_2)) / 2, q_1 = 1 / (1 - V_BC / V_AF - V_BE / V_AR), q_2 = I_F / I_KF + I_R / I_KR.
 *
 * @param vbe inner base against inner emitter, V
 * @param vbc inner base against inner collector, V
 * @see H. K. Gummel and H. C. Poon, Bell Syst. Tech. J. 49 (1970), p. 827, as SPICE defines it (ngspice 39 manual, 8.2)
 */
export function bipolarLaw(m: BipolarModel, vbe: number, vbc: number, out: BipolarOut): void {
  junctionLaw(m.is, m.forwardStep, vbe, be)
  junctionLaw(m.is, m.reverseStep, vbc, bc)
  junctionLaw(m.ise, m.emitterStep, vbe, beLeak)
  junctionLaw(m.isc, m.collectorStep, vbc, bcLeak)
  const q1 = 1 / (1 - vbc * m.perVaf - vbe * m.perVar)
  const q2 = m.perIkf * be.currentA + m.perIkr * bc.currentA
  const root = Math.sqrt(Math.max(1e-12, 1 + 4 * q2))
  const qb = (q1 * (1 + root)) / 2
  const qbByVbe = q1 * (qb * m.perVar + (m.perIkf * be.slopeS) / root)
  const qbByVbc = q1 * (qb * m.perVaf + (m.perIkr * bc.slopeS) / root)
  const transport = (be.currentA - bc.currentA) / qb
  const reverse = bc.currentA / m.br + bcLeak.currentA + m.gmin * vbc
  const reverseSlope = bc.slopeS / m.br + bcLeak.slopeS + m.gmin
  out.ic = transport - reverse
  out.icByVbe = (be.slopeS - transport * qbByVbe) / qb
  out.icByVbc = (-bc.slopeS - transport * qbByVbc) / qb - reverseSlope
  out.ib = be.currentA / m.bf + beLeak.currentA + m.gmin * vbe + reverse
  out.ibByVbe = be.slopeS / m.bf + beLeak.slopeS + m.gmin
  out.ibByVbc = reverseSlope
  baseResistance(m, qb, qbByVbe, qbByVbc, out)
}

/** R_B falls from `rb` to `rbm`: with the base charge, or by the law of I_RB where the card has one. */
function baseResistance(m: BipolarModel, qb: number, qbByVbe: number, qbByVbc: number, out: BipolarOut): void {
  const spread = m.rb - m.rbm
  if (spread === 0) {
    out.rbOhm = m.rb
    out.rbByVbe = 0
    out.rbByVbc = 0
  } else if (m.irb === 0) {
    out.rbOhm = m.rbm + spread / qb
    out.rbByVbe = (-spread * qbByVbe) / (qb * qb)
    out.rbByVbc = (-spread * qbByVbc) / (qb * qb)
  } else crowdedBase(m, spread, out)
}

/** R_B = R_BM + 3 (R_B - R_BM) (tan z - z) / (z tan^2 z), with z by the base current over I_RB. */
function crowdedBase(m: BipolarModel, spread: number, out: BipolarOut): void {
  const u = Math.max(out.ib / m.irb, 1e-9)
  const s = Math.sqrt(1 + 14.59025 * u)
  const z = (s - 1) / (2.4317 * Math.sqrt(u))
  const zByU = 14.59025 / (2 * s * 2.4317 * Math.sqrt(u)) - z / (2 * u)
  const tan = Math.tan(z)
  const sec2 = 1 + tan * tan
  const f = (tan - z) / (z * tan * tan)
  const fByZ = 1 / z - f / z - (2 * f * sec2) / tan
  out.rbOhm = m.rbm + 3 * spread * f
  const byIb = u > 1e-9 ? (3 * spread * fByZ * zByU) / m.irb : 0
  out.rbByVbe = byIb * out.ibByVbe
  out.rbByVbc = byIb * out.ibByVbc
}

function emptyModel(): BipolarModel {
  const o = Number.NaN
  const currents = { is: o, bf: o, br: o, ise: o, isc: o }
  const steps = { forwardStep: o, reverseStep: o, emitterStep: o, collectorStep: o }
  const bends = { perVaf: o, perVar: o, perIkf: o, perIkr: o }
  return { ...currents, ...steps, ...bends, rb: o, rbm: o, irb: o, re: o, rc: o, gmin: o }
}
