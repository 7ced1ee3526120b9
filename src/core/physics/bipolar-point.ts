import { type BipolarModel, type BipolarOut, bipolarLaw, bipolarOut } from './bipolar.ts'
import { limitedStep } from './limited-step.ts'

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

/** Inner junction voltages, V, moved in place so that a sweep allocates nothing. */
export interface InnerVoltages {
  vbe: number
  vbc: number
}

const mostSteps = 400

/** A step below this, V, leaves an error of its square over V_T, which is below rounding. */
const closeEnough = 1e-9

/** Where Newton starts that knows no point near by. */
export function innerStart(m: BipolarModel, drive: BipolarDrive, into: InnerVoltages): void {
  into.vbe = 'ib' in drive ? 0 : Math.min(drive.vbe, 20 * m.forwardStep)
  into.vbc = into.vbe - drive.vce
}

/**
 * Currents of an NPN transistor at its leads, its three resistances included, by Newton with limited junction steps.
 * For PNP turn the signs.
 *
 * @param start a point near by, which saves steps
 * @returns the point; undefined where the steps do not settle, which happens outside what a part can stand
 */
export function bipolarPoint(m: BipolarModel, drive: BipolarDrive, start?: InnerStart): BipolarPoint | undefined {
  const out = bipolarOut()
  const inner = { vbe: start?.innerVbe ?? 0, vbc: start?.innerVbc ?? 0 }
  if (start === undefined) innerStart(m, drive, inner)
  return settleBipolar(m, drive, inner, out) ? bipolarAtLeads(m, inner.vbe, inner.vbc, out) : undefined
}

/**
 * Moves inner voltages to where the leads are held as `drive` says, and writes the law's currents and slopes there.
 *
 * @returns false where the steps do not settle; the voltages are then of no use as a start
 */
export function settleBipolar(m: BipolarModel, drive: BipolarDrive, inner: InnerVoltages, out: BipolarOut): boolean {
  for (let i = 0; i < mostSteps; i++) {
    const { vbe, vbc } = inner
    bipolarLaw(m, vbe, vbc, out)
    writeEquations(m, drive, vbe, vbc, out, system)
    const { a, b, f, c, d, g } = system
    const det = a * d - b * c
    inner.vbe = limitedStep(vbe, vbe - (f * d - b * g) / det, m.forwardStep, m.is)
    inner.vbc = limitedStep(vbc, vbc - (a * g - f * c) / det, m.reverseStep, m.is)
    const moved = Math.abs(inner.vbe - vbe) + Math.abs(inner.vbc - vbc)
    if (!Number.isFinite(moved)) return false
    if (moved > closeEnough) continue
    follow(out, inner.vbe - vbe, inner.vbc - vbc)
    return true
  }
  return false
}

/** Takes the currents along a step so small that its square is rounding; slopes stay, to some 1e-8. */
function follow(out: BipolarOut, vbe: number, vbc: number): void {
  out.ic += out.icByVbe * vbe + out.icByVbc * vbc
  out.ib += out.ibByVbe * vbe + out.ibByVbc * vbc
  out.rbOhm += out.rbByVbe * vbe + out.rbByVbc * vbc
}

/** Two equations in the inner V_BE and V_BC: slopes a, b and value f; slopes c, d and value g. */
export interface LeadEquations {
  a: number
  b: number
  f: number
  c: number
  d: number
  g: number
}

const system: LeadEquations = { a: 0, b: 0, f: 0, c: 0, d: 0, g: 0 }

/** What the drive asks of the inner voltages, with its slopes. */
export function writeEquations(
  m: BipolarModel,
  drive: BipolarDrive,
  vbe: number,
  vbc: number,
  o: BipolarOut,
  into: LeadEquations,
): void {
  const emitterByVbe = m.re * (o.icByVbe + o.ibByVbe)
  const emitterByVbc = m.re * (o.icByVbc + o.ibByVbc)
  const emitter = m.re * (o.ic + o.ib)
  into.c = 1 + m.rc * o.icByVbe + emitterByVbe
  into.d = -1 + m.rc * o.icByVbc + emitterByVbc
  into.g = vbe - vbc + m.rc * o.ic + emitter - drive.vce
  if ('ib' in drive) {
    into.a = o.ibByVbe
    into.b = o.ibByVbc
    into.f = o.ib - drive.ib
  } else {
    into.a = 1 + o.rbOhm * o.ibByVbe + o.rbByVbe * o.ib + emitterByVbe
    into.b = o.rbOhm * o.ibByVbc + o.rbByVbc * o.ib + emitterByVbc
    into.f = vbe + o.rbOhm * o.ib + emitter - drive.vbe
  }
}

/** Lead voltages and conductances of a point given inside. */
function bipolarAtLeads(m: BipolarModel, innerVbe: number, innerVbc: number, o: BipolarOut): BipolarPoint {
  const vbe = innerVbe + o.rbOhm * o.ib + m.re * (o.ic + o.ib)
  const vce = innerVbe - innerVbc + m.rc * o.ic + m.re * (o.ic + o.ib)
  writeEquations(m, { vbe, vce }, innerVbe, innerVbc, o, system)
  const { a, b, c, d } = system
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
