import { jfetAt, jfetPoint, kelvin, mosfetAt, mosfetPoint } from '#core/physics'
import type { Curve } from './curve.ts'
import { type CurveLaw, type LawParameter, type Target, targetsOf } from './law.ts'

/** Drain voltage at which a transistor is taken to be saturated where the file does not say it, V. */
const unsaidDrainV = 1e3

/** The square law of a JFET or a MOSFET of level 1, with its two resistances. */
export function fieldCurveLaw(curve: Curve, temperatureC: number): CurveLaw {
  const isJfet = curve.kind === 'jfet'
  const targets = targetsOf(curve.points, ['I_D'], (p, i) => p.values.V_GS !== undefined && i > 0)
  const hasDrain = targets.some((t) => t.point.values.V_DS !== undefined)
  const held = hasDrain ? {} : { held: 'the file has no V_DS' }
  const resistance = (symbol: string, card: string): LawParameter => ({
    symbol,
    card,
    unit: 'ohm',
    start: 1,
    low: 1e-6,
    high: 1e7,
    scale: 'log',
    absent: 0,
    ...held,
  })
  const parameters: readonly LawParameter[] = [
    ...squareLaw(targets, isJfet),
    {
      symbol: 'lambda',
      card: 'lambda',
      unit: '1/V',
      start: 0.01,
      low: 1e-7,
      high: 10,
      scale: 'log',
      absent: 0,
      ...held,
    },
    resistance('R_D', 'rd'),
    resistance('R_S', 'rs'),
  ]
  return {
    kind: curve.kind,
    parameters,
    targets,
    evaluate: fieldLaw(targets, isJfet, temperatureC),
    notes: hasDrain ? [] : ['Without V_DS the transistor is taken to be saturated.'],
  }
}

/** Threshold and slope from the line of the square root of the current. */
function squareLaw(targets: readonly Target[], isJfet: boolean): LawParameter[] {
  const n = Math.max(1, targets.length)
  const most = targets.reduce((m, t) => Math.max(m, t.value), 0)
  const top = targets.filter((t) => t.value > most / 100)
  const x = top.map((t) => t.point.values.V_GS!)
  const y = top.map((t) => Math.sqrt(t.value))
  const mx = x.reduce((a, b) => a + b, 0) / n
  const my = y.reduce((a, b) => a + b, 0) / n
  const xx = x.reduce((s, a) => s + (a - mx) ** 2, 0)
  const slope = xx > 0 ? Math.max(1e-6, x.reduce((s, a, i) => s + (a - mx) * (y[i]! - my), 0) / xx) : 0.03
  const least = targets.reduce((m, t) => Math.min(m, t.point.values.V_GS!), Number.POSITIVE_INFINITY)
  const vto = Math.min(Number.isFinite(least) ? least - 0.01 : 0, mx - my / slope)
  const beta = slope ** 2
  return [
    {
      symbol: isJfet ? 'V_GS(off)' : 'V_GS(th)',
      card: 'vto',
      unit: 'V',
      start: vto,
      low: -100,
      high: 100,
      scale: 'linear',
    },
    isJfet
      ? { symbol: 'beta', card: 'beta', unit: 'A/V2', start: beta, low: 1e-12, high: 1e3, scale: 'log' }
      : { symbol: 'K_P', card: 'kp', unit: 'A/V2', start: 2 * beta, low: 1e-12, high: 1e4, scale: 'log' },
  ]
}

function fieldLaw(targets: readonly Target[], isJfet: boolean, temperatureC: number): CurveLaw['evaluate'] {
  const temperatureK = kelvin(temperatureC)
  return (p, values) => {
    const [vto, slope, lambda, rd, rs] = p as unknown as readonly number[]
    const card = { vto: vto!, lambda: lambda!, rd: rd!, rs: rs!, tnom: temperatureC }
    const jfet = isJfet ? jfetAt({ ...card, beta: slope! }, temperatureK) : undefined
    const mosfet = isJfet ? undefined : mosfetAt({ ...card, kp: slope!, w: 1, l: 1 }, 'n', temperatureK)
    for (const [i, t] of targets.entries()) {
      const vgs = t.point.values.V_GS!
      const vds = t.point.values.V_DS ?? unsaidDrainV
      const found = jfet === undefined ? mosfetPoint(mosfet!, vgs, vds) : jfetPoint(jfet, vgs, vds)
      values[i] = found?.id ?? Number.NaN
    }
  }
}
