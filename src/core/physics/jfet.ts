import { type DeviceSetting, deviceSettingDefaults, lawTemperature, nominalTemperature } from './device-setting.ts'
import { junctionLaw, junctionOut, saturationAtTemperature } from './junction.ts'

/** A junction field-effect transistor as its `.model` card gives it (square law), SI units, `tnom` in degC. */
export interface JfetCard {
  /** Pinch-off voltage, V: negative for both polarities, as SPICE has it. */
  readonly vto?: number
  /** Transconductance parameter, A/V^2. */
  readonly beta?: number
  /** Channel length modulation, 1/V. */
  readonly lambda?: number
  /** Gate junction saturation current, A, and emission. */
  readonly is?: number
  readonly n?: number
  /** Drain and source resistance, ohm. */
  readonly rd?: number
  readonly rs?: number
  /** Temperature the card holds at, degC. */
  readonly tnom?: number
}

/** Defaults of SPICE (ngspice 39 manual, 9.2). */
export const jfetCardDefaults = {
  vto: -2,
  beta: 1e-4,
  lambda: 0,
  is: 1e-14,
  n: 1,
  rd: 0,
  rs: 0,
  tnom: 27,
} as const

/** A JFET at one temperature. */
export interface JfetModel {
  vto: number
  beta: number
  lambda: number
  is: number
  /** N V_T of the gate junctions, V. */
  step: number
  rd: number
  rs: number
  gmin: number
}

/**
 * Currents into drain and gate of a field-effect transistor by its inner voltages, and how they change: `idByVgs` is
 * the change of I_D with V_GS at constant V_GD, S.
 */
export interface JfetOut {
  id: number
  ig: number
  idByVgs: number
  idByVgd: number
  igByVgs: number
  igByVgd: number
}

export function jfetOut(): JfetOut {
  const o = Number.NaN
  return { id: o, ig: o, idByVgs: o, idByVgd: o, igByVgs: o, igByVgd: o }
}

/** Gap of the gate junction's temperature law, V; SPICE writes it so in its source, the card cannot change it. */
const gateGapV = 1.11

/**
 * A JFET card brought to a temperature: the gate's I_S grows by the gap of silicon, V_TO and BETA stay.
 *
 * @param temperatureK above 0 K
 * @param into a model to write over, so that a sweep allocates nothing
 * @throws {FaultError} `out-of-domain` at or below 0 K
 */
export function jfetAt(
  card: JfetCard,
  temperatureK: number,
  setting: DeviceSetting = deviceSettingDefaults,
  into: JfetModel = emptyModel(),
): JfetModel {
  const d = jfetCardDefaults
  const t = lawTemperature(temperatureK)
  const law = { gapV: gateGapV, power: 0, emission: 1 }
  into.vto = card.vto ?? d.vto
  into.beta = card.beta ?? d.beta
  into.lambda = card.lambda ?? d.lambda
  into.is = saturationAtTemperature(card.is ?? d.is, law, nominalTemperature(card.tnom), t, setting.voltsPerKelvin)
  into.step = (card.n ?? d.n) * setting.voltsPerKelvin * t
  into.rd = card.rd ?? d.rd
  into.rs = card.rs ?? d.rs
  into.gmin = setting.gminS
  return into
}

const gs = junctionOut()
const gd = junctionOut()

/**
 * The square law of Shichman and Hodges with both gate junctions, for an n channel; for a p channel turn the sign of
 * all voltages and currents. Saturated: I_D = BETA (V_GS - V_TO)^2 (1 + LAMBDA V_DS); below that
 * BETA V_DS (2 (V_GS - V_TO) - V_DS) (1 + LAMBDA V_DS). With V_DS below 0 drain and source change places.
 *
 * @param vgs inner gate against inner source, V
 * @param vgd inner gate against inner drain, V
 * @see H. Shichman and D. A. Hodges, IEEE J. Solid-State Circuits 3 (1968), p. 285; ngspice 39 manual, 9.2.2
 */
export function jfetLaw(m: JfetModel, vgs: number, vgd: number, out: JfetOut): void {
  junctionLaw(m.is, m.step, vgs, gs)
  junctionLaw(m.is, m.step, vgd, gd)
  const forward = vgs >= vgd
  channel(m, forward ? vgs : vgd, forward ? vgs - vgd : vgd - vgs, out)
  if (!forward) {
    const { idByVgs, idByVgd } = out
    out.id = -out.id
    out.idByVgs = -idByVgd
    out.idByVgd = -idByVgs
  }
  out.ig = gs.currentA + gd.currentA + m.gmin * (vgs + vgd)
  out.igByVgs = gs.slopeS + m.gmin
  out.igByVgd = gd.slopeS + m.gmin
  out.id -= gd.currentA + m.gmin * vgd
  out.idByVgd -= gd.slopeS + m.gmin
}

/** Channel current with V_DS at or above 0, and its slopes with V_GS at constant V_GD and the other way round. */
function channel(m: JfetModel, vgs: number, vds: number, out: JfetOut): void {
  const over = vgs - m.vto
  if (over <= 0) {
    out.id = 0
    out.idByVgs = 0
    out.idByVgd = 0
    return
  }
  const longer = 1 + m.lambda * vds
  const isSaturated = over <= vds
  const square = isSaturated ? over * over : vds * (2 * over - vds)
  const gm = m.beta * longer * 2 * (isSaturated ? over : vds)
  const gds = m.beta * (m.lambda * square + (isSaturated ? 0 : longer * 2 * (over - vds)))
  out.id = m.beta * longer * square
  out.idByVgs = gm + gds
  out.idByVgd = -gds
}

function emptyModel(): JfetModel {
  const o = Number.NaN
  return { vto: o, beta: o, lambda: o, is: o, step: o, rd: o, rs: o, gmin: o }
}
