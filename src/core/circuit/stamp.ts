import { bipolarLaw, diodeLaw, jfetLaw, limitedStep, mosfetLaw } from '#core/physics'
import {
  type BipolarInstance,
  type DiodeInstance,
  type Instance,
  type JfetInstance,
  type MosfetInstance,
  width,
} from './instance.ts'

/**
 * Writes a device's currents and slopes at the circuit's voltages into its own small matrix.
 *
 * @param x voltages of the circuit, the common node last at 0 V
 * @param isFree take the junction voltages as they are; else hold them back from the last step's
 * @returns whether a junction was held back
 */
export function stamp(i: Instance, x: Float64Array, isFree: boolean): boolean {
  i.f.fill(0)
  i.j.fill(0)
  switch (i.kind) {
    case 'diode':
      return stampDiode(i, x, isFree)
    case 'bipolar':
      return stampBipolar(i, x, isFree)
    case 'jfet':
      return stampJfet(i, x, isFree)
    case 'mosfet':
      return stampMosfet(i, x, isFree)
  }
}

/** A conductance between two local nodes. */
function conduct(i: Instance, x: Float64Array, a: number, b: number, siemens: number): void {
  const current = siemens * (x[i.at[a]!]! - x[i.at[b]!]!)
  i.f[a]! += current
  i.f[b]! -= current
  i.j[a * width + a]! += siemens
  i.j[b * width + b]! += siemens
  i.j[a * width + b]! -= siemens
  i.j[b * width + a]! -= siemens
}

/** A current out of node a into node b, as it stands with its slope by the voltage of p against q. */
function slope(i: Instance, a: number, b: number, p: number, q: number, siemens: number): void {
  i.j[a * width + p]! += siemens
  i.j[a * width + q]! -= siemens
  i.j[b * width + p]! -= siemens
  i.j[b * width + q]! += siemens
}

function series(i: Instance, x: Float64Array, lead: number, inner: number, ohm: number): void {
  if (ohm > 0) conduct(i, x, lead, inner, 1 / ohm)
}

function stampDiode(i: DiodeInstance, x: Float64Array, isFree: boolean): boolean {
  const m = i.model
  const v = x[i.at[2]!]! - x[i.at[1]!]!
  const held = isFree ? v : limitedStep(i.junction[0]!, v, m.step, m.is, m.breakdown, m.breakdownStep)
  i.junction[0] = held
  diodeLaw(m, held, i.out)
  const current = i.out.currentA + i.out.slopeS * (v - held)
  i.f[2] = current
  i.f[1] = -current
  slope(i, 2, 1, 2, 1, i.out.slopeS)
  series(i, x, 0, 2, m.rs)
  if (i.parallelS > 0) conduct(i, x, 0, 1, i.parallelS)
  return held !== v
}

function stampBipolar(i: BipolarInstance, x: Float64Array, isFree: boolean): boolean {
  const m = i.model
  const out = i.out
  const base = x[i.at[4]!]!
  const vbe = i.sign * (base - x[i.at[5]!]!)
  const vbc = i.sign * (base - x[i.at[3]!]!)
  const be = isFree ? vbe : limitedStep(i.junction[0]!, vbe, m.forwardStep, m.is)
  const bc = isFree ? vbc : limitedStep(i.junction[1]!, vbc, m.reverseStep, m.is)
  i.junction[0] = be
  i.junction[1] = bc
  bipolarLaw(m, be, bc, out)
  const ic = i.sign * (out.ic + out.icByVbe * (vbe - be) + out.icByVbc * (vbc - bc))
  const ib = i.sign * (out.ib + out.ibByVbe * (vbe - be) + out.ibByVbc * (vbc - bc))
  i.f[3] = ic
  i.f[4] = ib
  i.f[5] = -ic - ib
  slope(i, 3, 5, 4, 5, out.icByVbe)
  slope(i, 3, 5, 4, 3, out.icByVbc)
  slope(i, 4, 5, 4, 5, out.ibByVbe)
  slope(i, 4, 5, 4, 3, out.ibByVbc)
  series(i, x, 0, 3, m.rc)
  series(i, x, 2, 5, m.re)
  baseSeries(i, x)
  if (i.cbS > 0) conduct(i, x, 0, 1, i.cbS)
  if (i.ceS > 0) conduct(i, x, 0, 2, i.ceS)
  return be !== vbe || bc !== vbc
}

/** The base resistance changes with the junction voltages: its own conductance and its change. */
function baseSeries(i: BipolarInstance, x: Float64Array): void {
  const { rbOhm, rbByVbe, rbByVbc } = i.out
  if (i.at[4] === i.at[1] || !(rbOhm > 0)) return
  conduct(i, x, 1, 4, 1 / rbOhm)
  if (rbByVbe === 0 && rbByVbc === 0) return
  const turn = (-i.sign * (x[i.at[1]!]! - x[i.at[4]!]!)) / (rbOhm * rbOhm)
  slope(i, 1, 4, 4, 5, turn * rbByVbe)
  slope(i, 1, 4, 4, 3, turn * rbByVbc)
}

function stampJfet(i: JfetInstance, x: Float64Array, isFree: boolean): boolean {
  const m = i.model
  const out = i.out
  const gate = x[i.at[1]!]!
  const vgs = i.sign * (gate - x[i.at[4]!]!)
  const vgd = i.sign * (gate - x[i.at[3]!]!)
  const gs = isFree ? vgs : limitedStep(i.junction[0]!, vgs, m.step, m.is)
  const gd = isFree ? vgd : limitedStep(i.junction[1]!, vgd, m.step, m.is)
  i.junction[0] = gs
  i.junction[1] = gd
  jfetLaw(m, gs, gd, out)
  const id = i.sign * (out.id + out.idByVgs * (vgs - gs) + out.idByVgd * (vgd - gd))
  const ig = i.sign * (out.ig + out.igByVgs * (vgs - gs) + out.igByVgd * (vgd - gd))
  i.f[3] = id
  i.f[1] = ig
  i.f[4] = -id - ig
  slope(i, 3, 4, 1, 4, out.idByVgs)
  slope(i, 3, 4, 1, 3, out.idByVgd)
  slope(i, 1, 4, 1, 4, out.igByVgs)
  slope(i, 1, 4, 1, 3, out.igByVgd)
  series(i, x, 0, 3, m.rd)
  series(i, x, 2, 4, m.rs)
  return gs !== vgs || gd !== vgd
}

function stampMosfet(i: MosfetInstance, x: Float64Array, isFree: boolean): boolean {
  const m = i.model
  const out = i.out
  const source = x[i.at[5]!]!
  const vgs = i.sign * (x[i.at[1]!]! - source)
  const vds = i.sign * (x[i.at[4]!]! - source)
  const vbs = i.sign * (x[i.at[3]!]! - source)
  const bs = isFree ? vbs : limitedStep(i.junction[0]!, vbs, m.step, m.is)
  const bd = isFree ? vbs - vds : limitedStep(i.junction[1]!, vbs - vds, m.step, m.is)
  i.junction[0] = bs
  i.junction[1] = bd
  const isHeld = bs !== vbs || bd !== vbs - vds
  const ds = isHeld ? bs - bd : vds
  mosfetLaw(m, vgs, ds, bs, out)
  const id = i.sign * (out.id + out.idByVds * (vds - ds) + out.idByVbs * (vbs - bs))
  const ibody = i.sign * (out.ibody + out.ibodyByVds * (vds - ds) + out.ibodyByVbs * (vbs - bs))
  i.f[4] = id
  i.f[3] = ibody
  i.f[5] = -id - ibody
  slope(i, 4, 5, 1, 5, out.idByVgs)
  slope(i, 4, 5, 4, 5, out.idByVds)
  slope(i, 4, 5, 3, 5, out.idByVbs)
  slope(i, 3, 5, 4, 5, out.ibodyByVds)
  slope(i, 3, 5, 3, 5, out.ibodyByVbs)
  series(i, x, 0, 4, m.rd)
  series(i, x, 2, 5, m.rs)
  return isHeld
}
