import { type BipolarModel, type BipolarOut, bipolarLaw, bipolarOut } from './bipolar.ts'
import { type DiodeModel, diodeLaw, diodeOut } from './diode.ts'
import { type JfetModel, jfetLaw, jfetOut } from './jfet.ts'
import { limitedStep } from './limited-step.ts'
import { type MosfetModel, mosfetLaw, mosfetOut } from './mosfet.ts'

/** A transistor as its leads see it: currents into them, and the inner junction voltages that give them. */
export interface BipolarPoint {
  readonly ic: number
  readonly ib: number
  /** Voltages at the leads, V. */
  readonly vbe: number
  readonly vce: number
  /** Inner junction voltages, V; a start for a point near by. */
  readonly innerVbe: number
  readonly innerVbc: number
  /** Changes of the lead currents with the lead voltages, S. */
  readonly icByVbe: number
  readonly icByVce: number
  readonly ibByVbe: number
  readonly ibByVce: number
}

/** What is held at the leads: both voltages, or base current and collector voltage. */
export type BipolarDrive =
  | { readonly vbe: number; readonly vce: number }
  | { readonly ib: number; readonly vce: number }

/** Inner junction voltages to start from. */
export interface InnerStart {
  readonly innerVbe: number
  readonly innerVbc: number
}

const mostSteps = 400

/**
 * Currents of an NPN transistor at its leads, its three resistances included, by Newton with limited junction steps.
 * For PNP turn the signs.
 *
 * @param start a point near by, which saves steps
 * @returns the point; undefined where the steps do not settle, which happens outside what a part can stand
 */
export function bipolarPoint(m: BipolarModel, drive: BipolarDrive, start?: InnerStart): BipolarPoint | undefined {
  const out = bipolarOut()
  const forced = 'ib' in drive
  let vbe = start?.innerVbe ?? (forced ? 0 : Math.min(drive.vbe, 20 * m.forwardStep))
  let vbc = start?.innerVbc ?? vbe - drive.vce
  for (let i = 0; i < mostSteps; i++) {
    bipolarLaw(m, vbe, vbc, out)
    const [a, b, f, c, d, g] = equations(m, drive, vbe, vbc, out)
    const det = a * d - b * c
    const newVbe = limitedStep(vbe, vbe - (f * d - b * g) / det, m.forwardStep, m.is)
    const newVbc = limitedStep(vbc, vbc - (a * g - f * c) / det, m.reverseStep, m.is)
    const moved = Math.abs(newVbe - vbe) + Math.abs(newVbc - vbc)
    if (!Number.isFinite(moved)) return undefined
    vbe = newVbe
    vbc = newVbc
    if (moved <= 1e-15 + 4e-15 * (Math.abs(vbe) + Math.abs(vbc))) break
    if (i === mostSteps - 1 && moved > 1e-12) return undefined
  }
  bipolarLaw(m, vbe, vbc, out)
  return bipolarAtLeads(m, vbe, vbc, out)
}

/** Two equations and their slopes with V_BE and V_BC inside: a, b, value; c, d, value. */
function equations(
  m: BipolarModel,
  drive: BipolarDrive,
  vbe: number,
  vbc: number,
  o: BipolarOut,
): readonly [number, number, number, number, number, number] {
  const c = 1 + m.rc * o.icByVbe + m.re * (o.icByVbe + o.ibByVbe)
  const d = -1 + m.rc * o.icByVbc + m.re * (o.icByVbc + o.ibByVbc)
  const g = vbe - vbc + m.rc * o.ic + m.re * (o.ic + o.ib) - drive.vce
  if ('ib' in drive) return [o.ibByVbe, o.ibByVbc, o.ib - drive.ib, c, d, g]
  return [
    1 + o.rbOhm * o.ibByVbe + o.rbByVbe * o.ib + m.re * (o.icByVbe + o.ibByVbe),
    o.rbOhm * o.ibByVbc + o.rbByVbc * o.ib + m.re * (o.icByVbc + o.ibByVbc),
    vbe + o.rbOhm * o.ib + m.re * (o.ic + o.ib) - drive.vbe,
    c,
    d,
    g,
  ]
}

/** Lead voltages and conductances of a point given inside. */
function bipolarAtLeads(m: BipolarModel, innerVbe: number, innerVbc: number, o: BipolarOut): BipolarPoint {
  const vbe = innerVbe + o.rbOhm * o.ib + m.re * (o.ic + o.ib)
  const vce = innerVbe - innerVbc + m.rc * o.ic + m.re * (o.ic + o.ib)
  const [a, b, , c, d] = equations(m, { vbe, vce }, innerVbe, innerVbc, o)
  const det = a * d - b * c
  return {
    ic: o.ic,
    ib: o.ib,
    vbe,
    vce,
    innerVbe,
    innerVbc,
    icByVbe: (o.icByVbe * d - o.icByVbc * c) / det,
    icByVce: (o.icByVbc * a - o.icByVbe * b) / det,
    ibByVbe: (o.ibByVbe * d - o.ibByVbc * c) / det,
    ibByVce: (o.ibByVbc * a - o.ibByVbe * b) / det,
  }
}

/**
 * Current of a diode at its leads, series resistance included, A.
 *
 * @returns undefined where the steps do not settle
 */
export function diodeCurrent(m: DiodeModel, voltageV: number): number | undefined {
  const out = diodeOut()
  let v = voltageV > 0 ? Math.min(voltageV, 20 * m.step) : Math.max(voltageV, Math.min(0, -m.breakdown))
  for (let i = 0; i < mostSteps; i++) {
    diodeLaw(m, v, out)
    const wanted = v - (v + m.rs * out.currentA - voltageV) / (1 + m.rs * out.slopeS)
    const next = limitedStep(v, wanted, m.step, m.is, m.breakdown, m.breakdownStep)
    const moved = Math.abs(next - v)
    v = next
    if (moved <= 4e-16 * Math.abs(v)) break
    if (!Number.isFinite(moved) || (i === mostSteps - 1 && moved > 1e-12)) return undefined
  }
  diodeLaw(m, v, out)
  return out.currentA
}

/** Voltage of a diode at its leads at a forward current above 0, V; undefined where the steps do not settle. */
export function diodeVoltage(m: DiodeModel, currentA: number): number | undefined {
  const out = diodeOut()
  let v = m.step * Math.log1p(currentA / m.is)
  for (let i = 0; i < mostSteps; i++) {
    diodeLaw(m, v, out)
    const next = limitedStep(v, v - (out.currentA - currentA) / out.slopeS, m.step, m.is)
    const moved = Math.abs(next - v)
    v = next
    if (moved <= 4e-16 * Math.abs(v)) return v + m.rs * currentA
    if (!Number.isFinite(moved)) return undefined
  }
  return undefined
}

/** Currents into drain and gate of an n-channel JFET at its leads, resistances included. */
export function jfetPoint(
  m: JfetModel,
  vgs: number,
  vds: number,
): { readonly id: number; readonly ig: number } | undefined {
  const out = jfetOut()
  // x, y: inner V_GS and V_GD; the gate has no resistance
  let x = vgs
  let y = vgs - vds
  for (let i = 0; i < mostSteps; i++) {
    jfetLaw(m, x, y, out)
    const f = x + m.rs * (out.id + out.ig) - vgs
    const g = y - m.rd * out.id - (vgs - vds)
    const a = 1 + m.rs * (out.idByVgs + out.igByVgs)
    const b = m.rs * (out.idByVgd + out.igByVgd)
    const c = -m.rd * out.idByVgs
    const d = 1 - m.rd * out.idByVgd
    const det = a * d - b * c
    const nextX = limitedStep(x, x - (f * d - b * g) / det, m.step, m.is)
    const nextY = limitedStep(y, y - (a * g - f * c) / det, m.step, m.is)
    const moved = Math.abs(nextX - x) + Math.abs(nextY - y)
    x = nextX
    y = nextY
    if (moved <= 1e-15 + 4e-16 * (Math.abs(x) + Math.abs(y))) break
    if (!Number.isFinite(moved) || (i === mostSteps - 1 && moved > 1e-9)) return undefined
  }
  jfetLaw(m, x, y, out)
  return { id: out.id, ig: out.ig }
}

/** Current into the drain of an n-channel MOS transistor at its leads, body tied to source, resistances included. */
export function mosfetPoint(m: MosfetModel, vgs: number, vds: number): { readonly id: number } | undefined {
  const out = mosfetOut()
  // x: inner V_DS, s: voltage over the source resistance; inner V_GS = vgs - s, V_BS = -s
  let x = vds
  let s = 0
  for (let i = 0; i < mostSteps; i++) {
    mosfetLaw(m, vgs - s, x, -s, out)
    // what enters at drain and body leaves through the source resistance
    const inner = out.id + out.ibody
    const f = s - m.rs * inner
    const g = x + s + m.rd * out.id - vds
    const byS = -(out.idByVgs + out.idByVbs)
    const a = 1 - m.rs * (byS - out.ibodyByVbs)
    const b = -m.rs * (out.idByVds + out.ibodyByVds)
    const c = 1 + m.rd * byS
    const d = 1 + m.rd * out.idByVds
    const det = a * d - b * c
    const nextS = s - (f * d - b * g) / det
    const nextX = -s - limitedStep(-s - x, -nextS - (x - (a * g - f * c) / det), m.step, m.is)
    const moved = Math.abs(nextS - s) + Math.abs(nextX - x)
    s = nextS
    x = nextX
    if (moved <= 1e-15 + 4e-16 * (Math.abs(x) + Math.abs(s))) break
    if (!Number.isFinite(moved) || (i === mostSteps - 1 && moved > 1e-9)) return undefined
  }
  mosfetLaw(m, vgs - s, x, -s, out)
  return { id: out.id }
}
