import { type DeviceSetting, deviceSettingDefaults, lawTemperature, nominalTemperature } from './device-setting.ts'
import { junctionLaw, junctionOut, saturationAtTemperature } from './junction.ts'
import { junctionPotential } from './junction-potential.ts'

/** A diode as its `.model` card gives it: SPICE names, SI units, `tnom` in degC. What is left out takes its default. */
export interface DiodeCard {
  /** Saturation current, A. */
  readonly is?: number
  /** Emission coefficient (ideality). */
  readonly n?: number
  /** Series resistance, ohm. */
  readonly rs?: number
  /** Breakdown voltage, V; left out, there is none. */
  readonly bv?: number
  /** Current at the breakdown voltage, A. */
  readonly ibv?: number
  /** Emission coefficient of breakdown. */
  readonly nbv?: number
  /** Knee current of high injection, A; left out or 0, there is none. */
  readonly ikf?: number
  /** Recombination current, A; left out or 0, there is none. */
  readonly isr?: number
  /** Emission coefficient of recombination. */
  readonly nr?: number
  /** Junction potential, V, and grading: they shape the recombination current in reverse. */
  readonly vj?: number
  readonly m?: number
  /** Gap, V, and power of the temperature law of I_S. */
  readonly eg?: number
  readonly xti?: number
  /** Temperature the card holds at, degC. */
  readonly tnom?: number
}

/** Defaults of SPICE (ngspice 39 manual, 7.2); `nbv` follows `n` where it is left out. */
export const diodeCardDefaults = {
  is: 1e-14,
  n: 1,
  rs: 0,
  ibv: 1e-3,
  ikf: 0,
  isr: 0,
  nr: 1,
  vj: 1,
  m: 0.5,
  eg: 1.11,
  xti: 3,
  tnom: 27,
} as const

/** A diode at one temperature: what its law needs, computed once. */
export interface DiodeModel {
  is: number
  /** n V_T, V. */
  step: number
  rs: number
  /** Voltage at which the reverse law turns to breakdown, V; Infinity where there is none. */
  breakdown: number
  /** Breakdown emission times V_T, V. */
  breakdownStep: number
  kneeA: number
  isr: number
  recombinationStep: number
  vj: number
  m: number
  gmin: number
}

/** Intrinsic current of a diode and its slope. */
export interface DiodeOut {
  currentA: number
  slopeS: number
}

export const diodeOut = (): DiodeOut => ({ currentA: Number.NaN, slopeS: Number.NaN })

/**
 * A diode card brought to a temperature: I_S and I_SR by gap and power, V_T; resistance and breakdown voltage stay.
 *
 * @param temperatureK above 0 K
 * @param into a model to write over, so that a sweep allocates nothing
 * @throws {FaultError} `out-of-domain` at or below 0 K
 */
export function diodeAt(
  card: DiodeCard,
  temperatureK: number,
  setting: DeviceSetting = deviceSettingDefaults,
  into: DiodeModel = emptyModel(),
): DiodeModel {
  const d = diodeCardDefaults
  const t = lawTemperature(temperatureK)
  const nominal = nominalTemperature(card.tnom)
  const kq = setting.voltsPerKelvin
  const n = card.n ?? d.n
  const nr = card.nr ?? d.nr
  const law = { gapV: card.eg ?? d.eg, power: card.xti ?? d.xti, emission: n }
  into.is = saturationAtTemperature(card.is ?? d.is, law, nominal, t, kq)
  into.step = n * kq * t
  into.rs = card.rs ?? d.rs
  into.breakdownStep = (card.nbv ?? n) * kq * t
  into.breakdown = breakdownTurn(card, into, kq * t)
  into.kneeA = card.ikf ?? d.ikf
  into.isr = card.isr === undefined ? 0 : saturationAtTemperature(card.isr, { ...law, emission: nr }, nominal, t, kq)
  into.recombinationStep = nr * kq * t
  into.vj = into.isr === 0 ? d.vj : junctionPotential(card.vj ?? d.vj, nominal, t, kq)
  into.m = card.m ?? d.m
  into.gmin = setting.gminS
  return into
}

/**
 * Where the breakdown law begins, so that the current at -BV is about -IBV:
 * BVx = BV - NBV V_T ln(IBV / I_S + 1 - BVx / (NBV V_T)), found by iteration.
 */
function breakdownTurn(card: DiodeCard, m: DiodeModel, vt: number): number {
  if (card.bv === undefined || card.bv === 0) return Number.POSITIVE_INFINITY
  const ibv = Math.max(card.ibv ?? diodeCardDefaults.ibv, (m.is * card.bv) / vt)
  if (ibv === (m.is * card.bv) / vt) return card.bv
  let turn = card.bv - m.breakdownStep * Math.log1p(ibv / m.is)
  for (let i = 0; i < 25; i++) turn = card.bv - m.breakdownStep * Math.log(ibv / m.is + 1 - turn / m.breakdownStep)
  return turn
}

/**
 * Current of the diode's junction at the voltage across it, without series resistance, and its slope.
 *
 * Forward and weak reverse as `junctionLaw`, beyond the turn (and -3 n V_T) -I_S exp(-(BVx + V) / (NBV V_T)); high injection divides
 * by 1 + sqrt(I / I_KF); recombination adds I_SR (exp(V / NR V_T) - 1) times the width of the depletion layer.
 *
 * @param voltageV anode against cathode, inside the series resistance, V
 * @see ngspice 39, diode model of level 1
 */
export function diodeLaw(m: DiodeModel, voltageV: number, out: DiodeOut): void {
  if (voltageV < -m.breakdown && voltageV < -3 * m.step) {
    const e = m.is * Math.exp(Math.min(300, -(m.breakdown + voltageV) / m.breakdownStep))
    out.currentA = -e
    out.slopeS = e / m.breakdownStep
  } else {
    junctionLaw(m.is, m.step, voltageV, out)
    if (m.isr > 0 && voltageV >= -3 * m.step) addRecombination(m, voltageV, out)
    if (m.kneeA > 0 && out.currentA > 1e-18) bendKnee(m, out)
  }
  out.currentA += m.gmin * voltageV
  out.slopeS += m.gmin
}

const part = junctionOut()

function addRecombination(m: DiodeModel, voltageV: number, out: DiodeOut): void {
  junctionLaw(m.isr, m.recombinationStep, voltageV, part)
  const a = 1 - voltageV / m.vj
  const base = a * a + 0.005
  const width = base ** (m.m / 2)
  out.slopeS += part.slopeS * width - (part.currentA * m.m * width * a) / (base * m.vj)
  out.currentA += part.currentA * width
}

function bendKnee(m: DiodeModel, out: DiodeOut): void {
  const root = Math.sqrt(out.currentA / m.kneeA)
  out.slopeS *= (1 + root / 2) / (1 + root) ** 2
  out.currentA /= 1 + root
}

function emptyModel(): DiodeModel {
  const o = Number.NaN
  return {
    is: o,
    step: o,
    rs: o,
    breakdown: o,
    breakdownStep: o,
    kneeA: o,
    isr: o,
    recombinationStep: o,
    vj: o,
    m: o,
    gmin: o,
  }
}
