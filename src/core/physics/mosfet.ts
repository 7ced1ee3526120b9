import { type DeviceSetting, deviceSettingDefaults, lawTemperature, nominalTemperature } from './device-setting.ts'
import { bandGap, spiceGapLaw } from './gap.ts'
import { junctionPotential } from './junction-potential.ts'

/** A MOS transistor of level 1 as its `.model` card and its element give it, SI units, `tnom` in degC. */
export interface MosfetCard {
  /** Threshold voltage, V: positive for an n channel that is off at 0 V, negative for such a p channel. */
  readonly vto?: number
  /** Transconductance parameter, A/V^2, for a channel as wide as long. */
  readonly kp?: number
  /** Body effect, V^0.5, and surface potential, V. */
  readonly gamma?: number
  readonly phi?: number
  /** Channel length modulation, 1/V. */
  readonly lambda?: number
  /** Channel length and width, m; only their ratio counts. */
  readonly l?: number
  readonly w?: number
  /** Saturation current of each body diode, A. */
  readonly is?: number
  /** Drain and source resistance, ohm. */
  readonly rd?: number
  readonly rs?: number
  /** Temperature the card holds at, degC. */
  readonly tnom?: number
}

/** Defaults of SPICE (ngspice 39 manual, 11.2, level 1). */
export const mosfetCardDefaults = {
  vto: 0,
  kp: 2e-5,
  gamma: 0,
  phi: 0.6,
  lambda: 0,
  l: 1e-4,
  w: 1e-4,
  is: 1e-14,
  rd: 0,
  rs: 0,
  tnom: 27,
} as const

/** A MOS transistor at one temperature, as an n channel: for a p channel the threshold has its sign turned. */
export interface MosfetModel {
  /** Flat-band threshold: V_TO less GAMMA sqrt(PHI), V. */
  threshold: number
  gamma: number
  phi: number
  /** KP W / L, A/V^2. */
  beta: number
  lambda: number
  is: number
  /** V_T of the body diodes, V. */
  step: number
  rd: number
  rs: number
  gmin: number
}

/**
 * Currents into drain and body by the inner voltages against the source, and how they change: `idByVgs` is the change
 * of I_D with V_GS at constant V_DS and V_BS, S. The gate takes none; the source gives the sum.
 */
export interface MosfetOut {
  id: number
  ibody: number
  idByVgs: number
  idByVds: number
  idByVbs: number
  ibodyByVds: number
  ibodyByVbs: number
}

export function mosfetOut(): MosfetOut {
  const o = Number.NaN
  return { id: o, ibody: o, idByVgs: o, idByVds: o, idByVbs: o, ibodyByVds: o, ibodyByVbs: o }
}

/**
 * A MOS card brought to a temperature: KP falls as T^-1.5, the threshold moves with the surface potential and half the
 * gap, the body diodes' I_S grows by the gap of silicon.
 *
 * @param polarity `p` turns the sign of V_TO; its shift with the gap goes the other way
 * @param temperatureK above 0 K
 * @param into a model to write over, so that a sweep allocates nothing
 * @throws {FaultError} `out-of-domain` at or below 0 K
 * @see ngspice 39, MOS level 1, temperature
 */
export function mosfetAt(
  card: MosfetCard,
  polarity: 'n' | 'p',
  temperatureK: number,
  setting: DeviceSetting = deviceSettingDefaults,
  into: MosfetModel = emptyModel(),
): MosfetModel {
  const d = mosfetCardDefaults
  const t = lawTemperature(temperatureK)
  const nominal = nominalTemperature(card.tnom)
  const kq = setting.voltsPerKelvin
  const sign = polarity === 'n' ? 1 : -1
  const phi = card.phi ?? d.phi
  const gap = bandGap(spiceGapLaw, t)
  const nominalGap = bandGap(spiceGapLaw, nominal)
  into.gamma = card.gamma ?? d.gamma
  into.phi = junctionPotential(phi, nominal, t, kq)
  const flat = sign * (card.vto ?? d.vto) - into.gamma * Math.sqrt(phi)
  into.threshold = flat + 0.5 * sign * (nominalGap - gap) + 0.5 * (into.phi - phi)
  into.beta = (((card.kp ?? d.kp) * (card.w ?? d.w)) / (card.l ?? d.l)) * (t / nominal) ** -1.5
  into.lambda = card.lambda ?? d.lambda
  into.is = (card.is ?? d.is) * Math.exp(nominalGap / (kq * nominal) - gap / (kq * t))
  into.step = kq * t
  into.rd = card.rd ?? d.rd
  into.rs = card.rs ?? d.rs
  into.gmin = setting.gminS
  return into
}

/**
 * The law of level 1 for an n channel; for a p channel turn the sign of all voltages and currents. With
 * V_ov = V_GS - V_th, V_th rising with the body's reverse voltage: saturated I_D = BETA / 2 V_ov^2 (1 + LAMBDA V_DS),
 * below that BETA V_DS (V_ov - V_DS / 2) (1 + LAMBDA V_DS). With V_DS below 0 drain and source change places. A diode
 * stands between body and drain and between body and source.
 *
 * @see H. Shichman and D. A. Hodges, IEEE J. Solid-State Circuits 3 (1968), p. 285; ngspice 39, MOS level 1
 */
export function mosfetLaw(m: MosfetModel, vgs: number, vds: number, vbs: number, out: MosfetOut): void {
  if (vds >= 0) channel(m, vgs, vds, vbs, out)
  else {
    channel(m, vgs - vds, -vds, vbs - vds, out)
    out.id = -out.id
    out.idByVds += out.idByVgs + out.idByVbs
    out.idByVgs = -out.idByVgs
    out.idByVbs = -out.idByVbs
  }
  const vbd = vbs - vds
  const drainDiode = bodyCurrent(m, vbd)
  const drainSlope = bodySlope(m, vbd)
  out.ibody = bodyCurrent(m, vbs) + drainDiode
  out.ibodyByVbs = bodySlope(m, vbs) + drainSlope
  out.ibodyByVds = -drainSlope
  out.id -= drainDiode
  out.idByVbs -= drainSlope
  out.idByVds += drainSlope
}

/** Channel current with V_DS at or above 0. */
function channel(m: MosfetModel, vgs: number, vds: number, vbs: number, out: MosfetOut): void {
  const rootPhi = Math.sqrt(m.phi)
  const root = vbs <= 0 ? Math.sqrt(m.phi - vbs) : Math.max(0, rootPhi - vbs / (2 * rootPhi))
  const bodyEffect = root <= 0 ? 0 : m.gamma / (2 * (vbs <= 0 ? root : rootPhi))
  const over = vgs - m.threshold - m.gamma * root
  if (over <= 0) {
    out.id = 0
    out.idByVgs = 0
    out.idByVds = 0
    out.idByVbs = 0
    return
  }
  const longer = 1 + m.lambda * vds
  const isSaturated = over <= vds
  const square = isSaturated ? 0.5 * over * over : vds * (over - 0.5 * vds)
  out.id = m.beta * longer * square
  out.idByVgs = m.beta * longer * (isSaturated ? over : vds)
  out.idByVds = m.beta * (m.lambda * square + (isSaturated ? 0 : longer * (over - vds)))
  out.idByVbs = out.idByVgs * bodyEffect
}

/** Body diodes of level 1 stay at -I_S below -3 V_T; forward beyond 300 V_T they go on along their tangent. */
function bodyCurrent(m: MosfetModel, v: number): number {
  const x = v / m.step
  if (x <= -3) return m.gmin * v - m.is
  if (x > 300) return m.gmin * v + m.is * Math.exp(300) * (x - 299)
  return m.gmin * v + m.is * Math.expm1(x)
}

const bodySlope = (m: MosfetModel, v: number): number =>
  v / m.step <= -3 ? m.gmin : m.gmin + (m.is / m.step) * Math.exp(Math.min(300, v / m.step))

function emptyModel(): MosfetModel {
  const o = Number.NaN
  return { threshold: o, gamma: o, phi: o, beta: o, lambda: o, is: o, step: o, rd: o, rs: o, gmin: o }
}
