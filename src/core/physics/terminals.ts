import { type DiodeModel, diodeLaw, diodeOut } from './diode.ts'
import { type JfetModel, jfetLaw, jfetOut } from './jfet.ts'
import { limitedStep } from './limited-step.ts'
import { type MosfetModel, mosfetLaw, mosfetOut } from './mosfet.ts'

const mostSteps = 400

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
