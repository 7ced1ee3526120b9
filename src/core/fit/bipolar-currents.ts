import {
  type BipolarDrive,
  type BipolarOut,
  bipolarAt,
  bipolarOut,
  bipolarSlopeOrder,
  deviceSettingDefaults,
  type InnerVoltages,
  innerStart,
  kelvin,
  settleBipolar,
  thermalVoltage,
  writeBipolarSlopes,
} from '#core/physics'
import type { CurvePoint } from './curve.ts'
import type { CurveLaw, Target } from './law.ts'

/** The order of the parameters in the law; `bipolarSlopeOrder` names the same numbers as the model holds them. */
export const bipolarOrder = ['is', 'nf', 'bf', 'ise', 'ne', 'ikf', 'vaf', 're', 'rb', 'rc'] as const

/** One row: what drives it, where its junctions stand, and which targets are read off it. */
interface Stand {
  readonly drive: BipolarDrive
  readonly inner: InnerVoltages
  readonly out: BipolarOut
  isSettled: boolean
  /** Index of the target, or -1. */
  readonly collector: number
  readonly base: number
}

const driveOf = ({ values: v }: CurvePoint): BipolarDrive => {
  const vce = v.V_CE ?? v.V_BE ?? 1
  return v.V_BE === undefined ? { ib: v.I_B!, vce } : { vbe: v.V_BE, vce }
}

function standsOf(targets: readonly Target[]): readonly Stand[] {
  const at = new Map<CurvePoint, { collector: number; base: number }>()
  for (const [i, t] of targets.entries()) {
    const found = at.get(t.point) ?? { collector: -1, base: -1 }
    found[t.symbol === 'I_C' ? 'collector' : 'base'] = i
    at.set(t.point, found)
  }
  return [...at].map(([point, read]) => ({
    drive: driveOf(point),
    inner: { vbe: 0, vbc: 0 },
    out: bipolarOut(),
    isSettled: false,
    ...read,
  }))
}

/**
 * The currents of a transistor and their slopes. Each row's junctions start from where they stood at the parameters
 * before, and the slopes are taken from where they stand: a step of the fit solves each row once, in a few iterations.
 */
export function bipolarCurrents(
  targets: readonly Target[],
  temperatureC: number,
): Required<Pick<CurveLaw, 'evaluate' | 'slopes'>> {
  const stands = standsOf(targets)
  const temperatureK = kelvin(temperatureC)
  const card = { is: 0, nf: 0, bf: 0, ise: 0, ne: 0, ikf: 0, vaf: 0, re: 0, rb: 0, rc: 0, tnom: temperatureC }
  const model = bipolarAt(card, temperatureK)
  const last = new Float64Array(bipolarOrder.length).fill(Number.NaN)
  const settle = (p: Float64Array): void => {
    if (p.every((v, j) => v === last[j])) return
    last.set(p)
    for (const [j, name] of bipolarOrder.entries()) card[name] = p[j]!
    bipolarAt(card, temperatureK, deviceSettingDefaults, model)
    for (const s of stands) {
      if (s.isSettled && settleBipolar(model, s.drive, s.inner, s.out)) continue
      innerStart(model, s.drive, s.inner)
      s.isSettled = settleBipolar(model, s.drive, s.inner, s.out)
    }
  }
  const slopes = { ic: new Float64Array(bipolarOrder.length), ib: new Float64Array(bipolarOrder.length) }
  return {
    evaluate: (p, values) => {
      settle(p)
      for (const { out, isSettled, collector, base } of stands) {
        if (collector >= 0) values[collector] = isSettled ? out.ic : Number.NaN
        if (base >= 0) values[base] = isSettled ? out.ib : Number.NaN
      }
    },
    slopes: (p, into) => {
      settle(p)
      const inner = innerSlopes(p, thermalVoltage(temperatureK))
      for (const s of stands) {
        writeBipolarSlopes(model, s.drive, s.inner, s.out, slopes)
        for (let j = 0; j < inner.length; j++) {
          if (s.collector >= 0) into[j]![s.collector] = slopes.ic[j]! * inner[j]!
          if (s.base >= 0) into[j]![s.base] = slopes.ib[j]! * inner[j]!
        }
      }
    },
  }
}

/** Slopes of the model's numbers with the parameters of the card: steps are emission times V_T, bends are inverse. */
function innerSlopes(p: Float64Array, vt: number): Float64Array {
  return Float64Array.from(bipolarSlopeOrder, (name, j) => {
    if (name === 'forwardStep' || name === 'emitterStep') return vt
    return name === 'perIkf' || name === 'perVaf' ? -1 / p[j]! ** 2 : 1
  })
}
