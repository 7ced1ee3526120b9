import { type BipolarPoint, bipolarAt, bipolarPoint, kelvin, thermalVoltage } from '#core/physics'
import type { Curve, CurvePoint } from './curve.ts'
import { type CurveLaw, type LawParameter, logLine, type Target, targetsOf } from './law.ts'

/** The order of the parameters in the law. */
const order = ['is', 'nf', 'bf', 'ise', 'ne', 'ikf', 'vaf', 're', 'rb', 'rc'] as const

/**
 * The Gummel-Poon law of a transistor in forward operation. A row with V_BE is driven by it and predicts I_C and I_B; a
 * row without it is driven by I_B and predicts I_C. Without V_CE the collector is taken to be tied to the base.
 */
export function bipolarCurveLaw(curve: Curve, temperatureC: number): CurveLaw {
  if (!curve.points.some((p) => p.values.V_BE !== undefined || p.values.I_B !== undefined)) return earlyLaw(curve)
  const drivenByVoltage = (p: CurvePoint): boolean => p.values.V_BE !== undefined && p.values.V_BE > 0
  const collector = targetsOf(curve.points, ['I_C'], (p, i) => i > 0 && (drivenByVoltage(p) || (p.values.I_B ?? 0) > 0))
  const base = targetsOf(curve.points, ['I_B'], (p, i) => i > 0 && drivenByVoltage(p))
  const targets = [...collector, ...base]
  const hasDrain = targets.some((t) => t.point.values.V_CE !== undefined)
  return {
    kind: 'bjt',
    parameters: parametersOf(curve, collector, base, thermalVoltage(kelvin(temperatureC)), hasDrain),
    targets,
    evaluate: bipolarLawOf(targets, temperatureC),
    notes: hasDrain ? [] : ['Without V_CE the collector is taken to stand at the voltage of the base.'],
  }
}

/** I_C = I_C0 (1 + V_CE / V_AF): collector current against its voltage, at a base drive that was not read. */
function earlyLaw(curve: Curve): CurveLaw {
  const targets = targetsOf(curve.points, ['I_C'], (p, i) => i > 0 && (p.values.V_CE ?? 0) > 0)
  const first = targets[0]?.value ?? 1e-3
  return {
    kind: 'bjt',
    parameters: [
      { symbol: 'I_C0', unit: 'A', start: first, low: 1e-15, high: 1e3, scale: 'log' },
      { symbol: 'V_AF', card: 'vaf', unit: 'V', start: 60, low: 0.5, high: 1e5, scale: 'log' },
    ],
    targets,
    evaluate: (p, values) => {
      for (const [i, t] of targets.entries()) values[i] = p[0]! * (1 + t.point.values.V_CE! / p[1]!)
    },
    notes: ['Neither V_BE nor I_B was read: the base drive is taken to be steady. I_C0 is I_C drawn on to V_CE of 0.'],
  }
}

function parametersOf(
  curve: Curve,
  collector: readonly Target[],
  base: readonly Target[],
  vt: number,
  hasDrain: boolean,
): readonly LawParameter[] {
  const most = Math.max(0, ...collector.map((t) => t.value))
  const start = startsOf(curve, collector, base, vt, most)
  const noBase = base.length === 0 && !curve.points.some((p) => (p.values.I_B ?? 0) > 0)
  const noVoltage = !curve.points.some((p) => p.values.V_BE !== undefined)
  const because = (...why: readonly (readonly [boolean, string])[]): { held?: string } => {
    const found = why.find(([is]) => is)
    return found === undefined ? {} : { held: found[1] }
  }
  const baseOnly = [noBase, 'no base current was read'] as const
  const few = [base.length < 6, 'fewer than six base currents against V_BE'] as const
  const p = (
    symbol: string,
    card: (typeof order)[number],
    unit: LawParameter['unit'],
    low: number,
    high: number,
    more: Partial<LawParameter>,
  ): LawParameter => ({
    symbol,
    card,
    unit,
    start: Math.min(high, Math.max(low, start[card])),
    low,
    high,
    scale: 'log',
    ...more,
  })
  const voltage = [noVoltage, 'no V_BE was read'] as const
  return [
    p('I_S', 'is', 'A', 1e-30, 1, because(voltage)),
    p('N_F', 'nf', '1', 0.5, 3, { scale: 'linear', ...because(voltage) }),
    p(
      'B_F',
      'bf',
      '1',
      0.1,
      1e6,
      because(baseOnly, [collector.length === 0, 'no collector current was read: I_S stands for I_S / B_F']),
    ),
    p('I_SE', 'ise', 'A', 1e-30, 1e-4, { absent: 0, ...because(baseOnly, few) }),
    p('N_E', 'ne', '1', 1.05, 5, { scale: 'linear', ...because(baseOnly, few) }),
    p('I_KF', 'ikf', 'A', 1e-9, 1e3, {
      absent: 0,
      ...because([collector.length < 5, 'fewer than five collector currents']),
    }),
    p('V_AF', 'vaf', 'V', 0.5, 1e4, { absent: 0, ...because([!hasDrain, 'no V_CE was read']) }),
    p('R_E', 're', 'ohm', 1e-6, 1e5, { absent: 0, ...because(voltage, few) }),
    p('R_B', 'rb', 'ohm', 1e-5, 1e6, { absent: 0, ...because(voltage, few) }),
    p('R_C', 'rc', 'ohm', 1e-6, 1e6, { absent: 0, ...because([!hasDrain, 'no V_CE was read']) }),
  ]
}

/** First values, each from the part of the curves where it shows most. */
function startsOf(
  curve: Curve,
  collector: readonly Target[],
  base: readonly Target[],
  vt: number,
  most: number,
): Record<(typeof order)[number], number> {
  const gummel = collector.filter((t) => t.point.values.V_BE !== undefined)
  const low = gummel.filter((t) => t.value < most / 20 && t.point.values.V_BE! > 3 * vt)
  const used = low.length >= 2 ? low : gummel
  const line = logLine(
    used.map((t) => t.point.values.V_BE!),
    used.map((t) => t.value),
  )
  const gains = curve.points.flatMap((p) =>
    p.values.I_C !== undefined && (p.values.I_B ?? 0) > 0 && p.values.I_C > 0 ? [p.values.I_C / p.values.I_B!] : [],
  )
  const bf = gains.length === 0 ? (collector.length === 0 ? 1 : 100) : Math.max(...gains)
  const nf = line === undefined ? 1 : Math.min(2, Math.max(0.9, 1 / (line.slope * vt)))
  const topBase = base.reduce((m, t) => Math.max(m, t.value), 0)
  const top = base.find((t) => t.value === topBase)
  const is =
    line === undefined
      ? top === undefined
        ? 1e-14
        : topBase / Math.exp(top.point.values.V_BE! / vt)
      : Math.exp(line.at0)
  const ne = 1.6
  const first = base.reduce<Target | undefined>((m, t) => (m === undefined || t.value < m.value ? t : m), undefined)
  const ise = first === undefined ? 0 : (first.value / Math.expm1(first.point.values.V_BE! / (ne * vt))) * 0.7
  return {
    is,
    nf,
    bf,
    ise,
    ne,
    ikf: (most || 1e-3) * 3,
    vaf: 60,
    re: (0.05 * vt) / (most || 1e-3),
    rb: (0.2 * vt) / (topBase || 1e-5),
    rc: (0.5 * vt) / (most || 1e-3),
  }
}

function bipolarLawOf(targets: readonly Target[], temperatureC: number): CurveLaw['evaluate'] {
  const temperatureK = kelvin(temperatureC)
  const points = [...new Set(targets.map((t) => t.point))]
  const at = targets.map((t) => points.indexOf(t.point))
  const last: (BipolarPoint | undefined)[] = points.map(() => undefined)
  return (p, values) => {
    const card = { ...Object.fromEntries(order.map((name, j) => [name, p[j]!])), tnom: temperatureC }
    const model = bipolarAt(card, temperatureK)
    for (const [i, { values: v }] of points.entries()) {
      const vce = v.V_CE ?? v.V_BE ?? 1
      const drive = v.V_BE === undefined ? { ib: v.I_B!, vce } : { vbe: v.V_BE, vce }
      const found = bipolarPoint(model, drive, last[i]) ?? bipolarPoint(model, drive)
      if (found !== undefined && Number.isFinite(found.ic)) last[i] = found
      else last[i] = undefined
    }
    for (const [i, t] of targets.entries()) {
      const found = last[at[i]!]
      values[i] = found === undefined ? Number.NaN : t.symbol === 'I_C' ? found.ic : found.ib
    }
  }
}
