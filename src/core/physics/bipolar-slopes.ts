import type { BipolarModel, BipolarOut } from './bipolar.ts'
import { type BipolarDrive, type InnerVoltages, type LeadEquations, writeEquations } from './bipolar-point.ts'
import { junctionLaw, junctionOut } from './junction.ts'

/** The numbers of a model by which the lead currents of forward operation can be differentiated, in this order. */
export const bipolarSlopeOrder = [
  'is',
  'forwardStep',
  'bf',
  'ise',
  'emitterStep',
  'perIkf',
  'perVaf',
  're',
  'rb',
  'rc',
] as const

/** Changes of I_C and I_B with each number of `bipolarSlopeOrder`. */
export interface BipolarSlopes {
  readonly ic: Float64Array
  readonly ib: Float64Array
}

const be = junctionOut()
const bc = junctionOut()
const leak = junctionOut()
const system: LeadEquations = { a: 0, b: 0, f: 0, c: 0, d: 0, g: 0 }

/** Index of the first resistance in the order: the law inside does not know them. */
const resistances = 7

/**
 * How the lead currents change with the numbers of the model while the drive is held, from the point where
 * `settleBipolar` left off: the implicit function theorem, so that nothing is solved again. R_B is taken to be
 * constant, as where a card has no R_BM.
 *
 * @param out as `settleBipolar` wrote it at `inner`
 */
export function writeBipolarSlopes(
  m: BipolarModel,
  drive: BipolarDrive,
  inner: InnerVoltages,
  out: BipolarOut,
  into: BipolarSlopes,
): void {
  const { ic, ib } = into
  writeInnerSlopes(m, inner.vbe, inner.vbc, ic, ib)
  writeEquations(m, drive, inner.vbe, inner.vbc, out, system)
  const { a, b, c, d } = system
  const det = a * d - b * c
  const isForced = 'ib' in drive
  for (let j = 0; j < bipolarSlopeOrder.length; j++) {
    const isInside = j < resistances
    const emitter = isInside ? m.re * (ic[j]! + ib[j]!) : j === resistances ? out.ic + out.ib : 0
    const base = isInside ? out.rbOhm * ib[j]! : j === resistances + 1 ? out.ib : 0
    const collector = isInside ? m.rc * ic[j]! : j === resistances + 2 ? out.ic : 0
    const f = isForced ? (isInside ? ib[j]! : 0) : base + emitter
    const g = collector + emitter
    const vbe = (b * g - f * d) / det
    const vbc = (f * c - a * g) / det
    ic[j] = (isInside ? ic[j]! : 0) + out.icByVbe * vbe + out.icByVbc * vbc
    ib[j] = (isInside ? ib[j]! : 0) + out.ibByVbe * vbe + out.ibByVbc * vbc
  }
}

/** The same at constant inner voltages: currents of a junction hang on V over its step, so its slope gives both. */
function writeInnerSlopes(m: BipolarModel, vbe: number, vbc: number, ic: Float64Array, ib: Float64Array): void {
  junctionLaw(m.is, m.forwardStep, vbe, be)
  junctionLaw(m.is, m.reverseStep, vbc, bc)
  junctionLaw(m.ise, m.emitterStep, vbe, leak)
  const q1 = 1 / (1 - vbc * m.perVaf - vbe * m.perVar)
  const q2 = m.perIkf * be.currentA + m.perIkr * bc.currentA
  const root = Math.sqrt(Math.max(1e-12, 1 + 4 * q2))
  const qb = (q1 * (1 + root)) / 2
  const transport = (be.currentA - bc.currentA) / qb
  const byQ2 = (-transport * q1) / (qb * root)
  const reverse = bc.currentA / (m.br * m.is)
  const byStep = (-be.slopeS * vbe) / m.forwardStep
  ic[0] = (transport + byQ2 * q2) / m.is - reverse
  ib[0] = be.currentA / (m.bf * m.is) + reverse
  ic[1] = byStep * (1 / qb + byQ2 * m.perIkf)
  ib[1] = byStep / m.bf
  ic[2] = 0
  ib[2] = -be.currentA / m.bf ** 2
  ic[3] = 0
  ib[3] = m.ise === 0 ? Math.expm1(Math.min(300, vbe / m.emitterStep)) : leak.currentA / m.ise
  ic[4] = 0
  ib[4] = (-leak.slopeS * vbe) / m.emitterStep
  ic[5] = byQ2 * be.currentA
  ib[5] = 0
  ic[6] = -transport * q1 * vbc
  ib[6] = 0
}
